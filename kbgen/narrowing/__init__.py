"""Which fault it is most likely to be, after what was seen, and what to look at next.

One fault at a time is assumed: one of a list, or another that no procedure describes. Its procedure says how often it
comes up and how likely its causes and symptoms are; what the procedure leaves open is assumed, and `assumed` holds all
of that. Probabilities order what is looked at; they never order the steps of a procedure, and nothing is proposed but
to look at the machine as it stands.
"""
