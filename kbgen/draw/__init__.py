"""Flowcharts drawn at build time as inline SVG.

An abstract chart goes in (`chart`), numbers come out (`layout`), and `svg` writes them down.
`gate` measures a drawing with geometry of its own; nothing here knows what a procedure is.
"""
