"""Lines with one verb in another form: "leaks" for "leaking". The verbs are WordNet's, the forms the regular ones."""

from __future__ import annotations

import random
import re
from collections.abc import Iterator, Sequence

from .corpora import Corpus, Line
from .query import Query
from .sources import wordnet_words

_DOUBLES = re.compile("[^aeiou][aeiou][bdgmnprt]$")
_SHORTEST = 3


def forms(verb: str) -> tuple[str, ...]:
    """Return the verb, its third person, its past and its participle."""
    stem = verb.removesuffix("e") if verb.endswith("e") else verb
    if _DOUBLES.search(verb) and len(verb) <= 4:
        stem += verb[-1]
    third = verb + ("es" if verb.endswith(("s", "sh", "ch", "x", "z")) else "s")
    return (verb, third, stem + "ed", stem + "ing")


def verb_of(word: str) -> str:
    """Return the verb of which the word is a form and nothing else in the dictionary, or nothing."""
    bare = (word.removesuffix(ending) for ending in ("ing", "ed", "es", "s", "") if word.endswith(ending))
    bases = (base for stem in bare for base in (stem, stem + "e", stem[:-1]) if len(base) >= _SHORTEST)
    verbs = wordnet_words("verb")
    return next((base for base in bases if base in verbs and word in forms(base)), "")


def verb_queries(corpus: Corpus, lines: Sequence[Line], chance: random.Random) -> Iterator[Query]:
    """Yield lines with one word that ends in -ing or -ed put in another form."""
    for line in lines:
        pieces = line.text.split()
        changed = [place for place, piece in enumerate(pieces) if piece.lower().endswith(("ing", "ed"))]
        verbs = {place: verb_of(pieces[place].lower()) for place in changed}
        places = [place for place, verb in verbs.items() if verb and pieces[place].lower() not in wordnet_words("noun")]
        if places:
            place = chance.choice(places)
            others = [form for form in forms(verbs[place]) if form != pieces[place].lower()]
            pieces[place] = chance.choice(others)
            yield Query(corpus.name, "verb in another form", " ".join(pieces), corpus.same_words(line.text))
