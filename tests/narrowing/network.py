"""A model as a Bayesian network of pgmpy: fault, cause given the fault, each observation given the cause."""

from __future__ import annotations

import logging
from collections.abc import Collection

import numpy
from pgmpy.factors.discrete import TabularCPD
from pgmpy.inference import VariableElimination
from pgmpy.models import DiscreteBayesianNetwork

from kbgen.narrowing.model import Model
from kbgen.narrowing.posterior import Answers

logging.getLogger("pgmpy").setLevel(logging.ERROR)
FAULT, CAUSE = "fault", "cause"


def network(model: Model, wanted: Collection[int]) -> VariableElimination:
    """The network with the observations that are wanted; causes are numbered through all faults."""
    owners = [fault for fault, causes in enumerate(model.prior) for _ in causes]
    made = DiscreteBayesianNetwork([(FAULT, CAUSE), *((CAUSE, _name(one)) for one in wanted)])
    made.add_cpds(
        TabularCPD(FAULT, len(model.faults), [[sum(causes)] for causes in model.prior]),
        TabularCPD(CAUSE, len(owners), _causes(model, owners), evidence=[FAULT], evidence_card=[len(model.faults)]),
        *(_observation(model, one, len(owners)) for one in wanted),
    )
    assert made.check_model()
    return VariableElimination(made)


def faults_after(model: Model, answers: Answers) -> list[float]:
    """The chance of each fault by variable elimination."""
    evidence = {_name(one): int(is_there) for one, is_there in answers.items()}
    found = network(model, answers).query([FAULT], evidence=evidence, show_progress=False)
    return list(map(float, found.values))


def fault_and_answer(model: Model, answers: Answers, number: int) -> numpy.ndarray:
    """The joint chances of fault and one more observation."""
    evidence = {_name(one): int(is_there) for one, is_there in answers.items()}
    joint = network(model, {*answers, number}).query([FAULT, _name(number)], evidence=evidence, show_progress=False)
    return numpy.asarray(joint.values) if joint.variables[0] == FAULT else numpy.asarray(joint.values).T


def _name(number: int) -> str:
    return f"observation-{number}"


def _causes(model: Model, owners: list[int]) -> list[list[float]]:
    flat = [one / sum(causes) for causes in model.prior for one in causes]
    return [
        [share if owner == fault else 0.0 for fault in range(len(model.faults))]
        for owner, share in zip(owners, flat, strict=True)
    ]


def _observation(model: Model, number: int, count: int) -> TabularCPD:
    observation = model.observations[number]
    named = {one.fault: one.by_cause for one in observation.chances}
    chances = [
        named[fault][cause] if fault in named else observation.otherwise
        for fault, causes in enumerate(model.prior)
        for cause in range(len(causes))
    ]
    return TabularCPD(
        _name(number), 2, [[1 - one for one in chances], chances], evidence=[CAUSE], evidence_card=[count]
    )
