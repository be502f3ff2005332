"""Judge every mutant, not only a sample, and print the account: ``python -m tests.proof`` (some minutes)."""

from __future__ import annotations

from kbgen.memory import seldom_collected
from tests.proof.account import account, summary
from tests.proof.bases import bases
from tests.proof.judgement import judge
from tests.proof.mutants import all_mutants

with seldom_collected():
    judged = [judge(mutant) for one in bases() for mutant in all_mutants(one)]
print("\n".join([summary(judged), *account(judged)]))
