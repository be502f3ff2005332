"""The language of instructions: what counts as a word, a verb, an action, a term and a code; nothing of procedures."""
