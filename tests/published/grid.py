"""Single-phase circuits in power-grid-model, a general-purpose power-system engine.

Three alike single-phase loops stand for one: each line carries the loop's own resistance (both
conductors) as its positive sequence, at 230 V × √3 between lines. A symmetrical fault, or loads
times three, give then what one loop gives. The engine's voltage factor is divided out again.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import power_grid_model as pgm
from power_grid_model import initialize_array

U0 = 230.0
U_LINES = U0 * 3**0.5
Edge = tuple[int, int, complex]
"""(from node, to node, impedance of both conductors [Ω]); node 1 is the ideal source."""


def _network(edges: Sequence[Edge]) -> dict:
    nodes = sorted({1, *(each for edge in edges for each in edge[:2])})
    node = initialize_array("input", "node", len(nodes))
    node["id"], node["u_rated"] = nodes, U_LINES
    source = initialize_array("input", "source", 1)
    source["id"], source["node"], source["status"], source["u_ref"] = 1000, 1, 1, 1.0
    source["sk"], source["rx_ratio"], source["z01_ratio"] = 1e12, 0.1, 1.0
    line = initialize_array("input", "line", len(edges))
    line["id"] = np.arange(2000, 2000 + len(edges))
    line["from_node"] = [edge[0] for edge in edges]
    line["to_node"] = [edge[1] for edge in edges]
    line["from_status"] = line["to_status"] = 1
    line["r1"] = line["r0"] = [edge[2].real for edge in edges]
    line["x1"] = line["x0"] = [edge[2].imag for edge in edges]
    for name in ("c1", "tan1", "c0", "tan0"):
        line[name] = 0
    line["i_n"] = 1000
    return {"node": node, "source": source, "line": line}


def loop_impedance(edges: Sequence[Edge], at: int) -> float:
    """Return the loop impedance [Ω] that a bolted fault at a node meets."""
    fault = initialize_array("input", "fault", 1)
    fault["id"], fault["status"], fault["fault_object"] = 3000, 1, at
    fault["fault_type"] = pgm.FaultType.three_phase
    fault["fault_phase"] = pgm.FaultPhase.abc
    fault["r_f"] = fault["x_f"] = 0
    model = pgm.PowerGridModel({**_network(edges), "fault": fault}, system_frequency=50.0)
    result = model.calculate_short_circuit(
        short_circuit_voltage_scaling=pgm.ShortCircuitVoltageScaling.minimum
    )
    return 0.95 * U0 / float(result["fault"]["i_f"][0, 0])


def voltage_drop(edges: Sequence[Edge], loads: dict[int, float], at: int) -> float:
    """Return the voltage lost from the source to a node [V]; loads are constant currents [A]."""
    load = initialize_array("input", "sym_load", len(loads))
    load["id"] = np.arange(4000, 4000 + len(loads))
    load["node"], load["status"] = list(loads), 1
    load["type"] = pgm.LoadGenType.const_current
    load["p_specified"] = [3 * U0 * each for each in loads.values()]
    load["q_specified"] = 0
    network = {**_network(edges), "sym_load": load}
    model = pgm.PowerGridModel(network, system_frequency=50.0)
    result = model.calculate_power_flow(
        symmetric=True,
        error_tolerance=1e-10,
        max_iterations=100,
        calculation_method=pgm.CalculationMethod.newton_raphson,
    )
    row = list(network["node"]["id"]).index(at)
    return U0 * (1 - float(result["node"]["u_pu"][row]))
