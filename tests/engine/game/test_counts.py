"""Counted sequences and totals of the default rule set, from its written rules, and counted a second way."""

from __future__ import annotations

import networkx as nx
import numpy as np
import pytest

from engine.floor.alignment import start
from engine.floor.formations import FORMATIONS
from engine.game.graph import perft
from tests.graphs import reach

# formation: legal sequences of length 1, 2, 3; alignments reached, over or not; steps between them
COUNTS = {
    "five_out": (13, 152, 1678, 6218, 25563),
    "four_out_one_in": (15, 171, 1890, 8960, 39426),
    "three_out_two_in": (17, 110, 908, 3786, 14153),
}


@pytest.mark.parametrize("name", COUNTS)
def test_counts_and_totals(name: str) -> None:
    formation = FORMATIONS[name]
    graph = reach(formation)
    found = (*(perft(formation, n) for n in (1, 2, 3)), len(graph.alignments), len(graph.steps))
    assert found == COUNTS[name]


@pytest.mark.parametrize("name", COUNTS)
def test_networkx_counts_the_same_walks(name: str) -> None:
    """An independent count: walks in the step graph by powers of its adjacency matrix (networkx)."""
    formation = FORMATIONS[name]
    graph = nx.MultiDiGraph()
    graph.add_edges_from((step.before, step.after) for step in reach(formation).steps)
    origin = start(formation).alignment
    assert len(graph) == COUNTS[name][3]
    assert graph.number_of_edges() == COUNTS[name][4]
    assert len(nx.descendants(graph, origin) | {origin}) == COUNTS[name][3]
    nodes = list(graph)
    matrix = nx.to_scipy_sparse_array(graph, nodelist=nodes, dtype=np.int64)
    walks = np.zeros(len(nodes), dtype=np.int64)
    walks[nodes.index(origin)] = 1
    for length in range(1, 6):
        walks = matrix.T @ walks
        assert walks.sum() == perft(formation, length)
