"""One evaluation of a board by power-grid-model, a general-purpose engine in C++.

As a person would who had that engine instead: 14 fault places (origin, board, 12 ends), the loop
line-earth hot, line-neutral and line-earth cold, then the voltage drop: three short-circuit models
and one load flow, each built from the record's resistances. Three alike loops stand for one.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import power_grid_model as pgm
from power_grid_model import initialize_array

from records.expected.context import Context, feed_along, own_along
from records.expected.runs import HOT, State, state
from records.model.record import Record

COLD = state(20.0, ac=True)
U0 = 230.0
U_LINES = U0 * 3**0.5


class Board:
    """The numbers of a board that the engine is given: loop resistances of feed and circuits."""

    def __init__(self, record: Record, loads: float = 5.0) -> None:
        """Work out the resistances beforehand: that isn't part of the engine's time."""
        context = Context(record)
        self.ze = record.origin.ze or 0.0
        self.loads = [loads] * len(record.circuits)
        self.earth = {at: self._loops(context, at, neutral=False) for at in (HOT, COLD)}
        self.neutral = {at: self._loops(context, at, neutral=True) for at in (HOT, COLD)}

    @staticmethod
    def _loops(context: Context, at: State, *, neutral: bool) -> list[complex]:
        found = [feed_along(context, at)]
        found += [own_along(context, each, at) for each in context.record.circuits]
        if neutral:
            return [complex(2 * each.line, each.x_neutral) for each in found]
        return [complex(each.line + each.back, each.x_back) for each in found]


def evaluate(board: Board) -> tuple[np.ndarray, ...]:
    """Return Zs hot [Ω], L-N and L-E fault current cold [A] at each place, and the drop [V]."""
    network = _network(board)
    hot = U0 / _short_circuit(network, board, board.earth[HOT])
    neutral = _short_circuit(network, board, board.neutral[COLD])
    earth = _short_circuit(network, board, board.earth[COLD])
    return hot, neutral, earth, _load_flow(network, board)


def _network(board: Board) -> dict[str, Any]:
    circuits = len(board.loads)
    node = initialize_array("input", "node", circuits + 2)
    node["id"], node["u_rated"] = np.arange(circuits + 2), U_LINES
    source = initialize_array("input", "source", 1)
    source["id"], source["node"], source["status"], source["u_ref"] = 1000, 0, 1, 1.0
    source["rx_ratio"], source["z01_ratio"] = 1e6, 1.0
    line = initialize_array("input", "line", circuits + 1)
    line["id"] = 2000 + np.arange(circuits + 1)
    line["from_node"] = [0, *[1] * circuits]
    line["to_node"] = np.arange(1, circuits + 2)
    line["from_status"] = line["to_status"] = 1
    for name in ("c1", "tan1", "c0", "tan0"):
        line[name] = 0
    line["i_n"] = 100
    return {"node": node, "source": source, "line": line}


def _with_loops(network: dict[str, Any], loops: list[complex]) -> None:
    line = network["line"]
    line["r1"] = line["r0"] = [each.real for each in loops]
    line["x1"] = line["x0"] = [each.imag for each in loops]


def _short_circuit(network: dict[str, Any], board: Board, loops: list[complex]) -> np.ndarray:
    places = len(loops) + 1
    network["source"]["sk"] = U_LINES**2 / board.ze
    _with_loops(network, loops)
    fault = initialize_array("input", "fault", 1)
    fault["id"], fault["status"], fault["fault_object"] = 3000, 1, 0
    fault["fault_type"] = pgm.FaultType.three_phase
    fault["fault_phase"] = pgm.FaultPhase.abc
    fault["r_f"] = fault["x_f"] = 0
    update = initialize_array("update", "fault", (places, 1))
    update["id"] = 3000
    update["fault_object"] = np.arange(places)[:, None]
    model = pgm.PowerGridModel({**network, "fault": fault}, system_frequency=50.0)
    result = model.calculate_short_circuit(
        update_data={"fault": update},
        output_component_types=["fault"],
        short_circuit_voltage_scaling=pgm.ShortCircuitVoltageScaling.minimum,
    )
    return result["fault"]["i_f"][:, 0, 0] / 0.95


def _load_flow(network: dict[str, Any], board: Board) -> np.ndarray:
    circuits = len(board.loads)
    network["source"]["sk"] = 1e12
    _with_loops(network, board.neutral[HOT])
    load = initialize_array("input", "sym_load", circuits)
    load["id"] = 4000 + np.arange(circuits)
    load["node"] = np.arange(2, circuits + 2)
    load["status"] = 1
    load["type"] = pgm.LoadGenType.const_current
    load["p_specified"] = np.array(board.loads) * U0 * 3
    load["q_specified"] = 0
    model = pgm.PowerGridModel({**network, "sym_load": load}, system_frequency=50.0)
    result = model.calculate_power_flow(
        symmetric=True, error_tolerance=1e-9, output_component_types=["node"]
    )
    return U0 * (1 - result["node"]["u_pu"])
