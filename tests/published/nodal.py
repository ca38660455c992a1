"""Nodal analysis of a network of resistances: the plain textbook method, with numpy."""

from collections.abc import Sequence

import numpy as np

Branch = tuple[int, int, complex]


def between(branches: Sequence[Branch], one: int, other: int) -> float:
    """Return the magnitude of the impedance [Ω] that a meter sees between two nodes.

    Args:
        branches: (node, node, impedance [Ω]).
        one: Node that 1 A goes in at.
        other: Node that it comes out at, taken as zero volts.
    """
    nodes = sorted({each for branch in branches for each in branch[:2]})
    index = {node: at for at, node in enumerate(nodes)}
    admittance = np.zeros((len(nodes), len(nodes)), dtype=complex)
    for start, end, impedance in branches:
        a, b, y = index[start], index[end], 1 / impedance
        admittance[a, a] += y
        admittance[b, b] += y
        admittance[a, b] -= y
        admittance[b, a] -= y
    current = np.zeros(len(nodes), dtype=complex)
    current[index[one]] = 1.0
    keep = [at for at in range(len(nodes)) if at != index[other]]
    # lstsq: a node that hangs free of both terminals must not make the matrix singular.
    volts = np.linalg.lstsq(admittance[np.ix_(keep, keep)], current[keep], rcond=None)[0]
    return float(abs(volts[keep.index(index[one])]))
