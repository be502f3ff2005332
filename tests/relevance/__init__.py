"""How often the search shows the right entry first: real trouble codes and the demo, in many ways of asking.

python -m tests.relevance                  the part to work with
python -m tests.relevance --part held-back the part that is run for a report only; the run is noted down
"""
