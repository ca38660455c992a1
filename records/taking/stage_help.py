"""What each stage with readings is about, in short: for its help."""

from __future__ import annotations

from records.notices import SERVICES
from records.taking.cautions import HELP
from records.terms import Stage

_BEFORE_COVERING = (
    "These readings are taken on bare ends, while walls and trench are open. They are the only "
    "ones with nothing connected: prove that, at both ends. What is wrong now costs minutes, "
    "not a wall.\n\n"
    f"{SERVICES}\n\n"
    "Nothing is covered while a reading here is outside or unlikely. The same readings are "
    "taken again in the dead tests: a fall since now is another finding."
)
_DEAD = (
    "Isolated, locked off and proved dead, in the safe order. Each test is only safe because "
    "the ones before it were satisfactory. Put right what fails, and repeat that test. Repeat "
    "each earlier test too that the fault or its repair could have influenced (BS 7671, 643.1). "
    "The first reading stays in the record for good."
)
_LIVE = (
    "Live tests are live work. They come after every dead test is satisfactory, in the safe "
    "order. First polarity at the origin. Then Ze, if anybody takes it: all isolated, and the "
    "earth put back after. Then the feed on, the main switch off: polarity, voltages, Zdb, "
    "fault currents. Then one circuit at a time: Zs, RCDs, and what operates.\n\n"
    "Low can be wrong too: Zs below Zdb, or a fraction of an ohm on an earth electrode. Voltage "
    "where there should be none: stop, leave it off, call the network operator.\n\n"
    "The question before them holds for one person and four hours. It names which circuits may "
    "go live, and which stay locked off."
)
_OF = {Stage.BEFORE_COVERING: _BEFORE_COVERING, Stage.DEAD: _DEAD, Stage.LIVE: _LIVE}


def stage_help(stage: Stage, how: str = "") -> str:
    """Return the help of a stage, and what to do at a shock or a tingle.

    Args:
        stage: Which.
        how: How the bench is worked where it is shown; may be empty.
    """
    return "\n\n".join(filter(None, (_OF[stage], how, HELP)))
