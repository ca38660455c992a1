"""Cautions on earthing, in our own words, for the steps where the choice is made."""

FOLLOW = "Follow local rules and a competent person."

PME = (
    "PME: if the supply's neutral breaks, all that is earthed to it can rise to a dangerous "
    "voltage. Outdoors, and where metal in the outbuilding touches the ground, that needs the "
    f"certifier's decision first. {FOLLOW}"
)
TT = (
    "TT: the loop goes through the ground and is far too high for a fuse or circuit-breaker: "
    f"every circuit needs an RCD. A low loop here is a sign of a fault. {FOLLOW}"
)
PME_OUTDOORS = (
    "PME and metal in the ground or circuits outdoors: an own electrode with an RCD may be asked "
    "for instead of the house's earth. Decide with the certifier before the cable is bought. "
    f"{FOLLOW}"
)
ISLAND = (
    "Own electrode: the house's earth must end before the outbuilding. Armour, pipes and screens "
    "must not join the two; leave the armour unconnected, insulated, at one end. "
    f"{FOLLOW}"
)
BONDS = (
    "Metal that comes out of the ground is bonded at its entry; with PME the conductor is sized "
    f"by the supply's neutral. {FOLLOW}"
)
