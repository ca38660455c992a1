"""Cautions on earthing, in our own words, for the steps where the choice is made."""

FOLLOW = "Follow local rules and a competent person."

PME = (
    "PME: if the supply's neutral breaks, all that is earthed to it can rise to a dangerous "
    "voltage. Outdoors, and where metal in the outbuilding touches the ground, that needs the "
    f"certifier's decision first. {FOLLOW}"
)
TT = (
    "TT: the loop goes through the ground and is far too high for a fuse or circuit-breaker. "
    f"Every circuit needs an RCD. A low loop here is a sign of a fault. {FOLLOW}"
)
PME_OUTDOORS = (
    "PME with metal in the ground or circuits outdoors: the certifier may ask for a separate "
    "electrode with an RCD. It takes the place of the house's earth. Decide with the certifier "
    f"before the cable is bought. {FOLLOW}"
)
ISLAND = (
    "Own electrode: the house's earth must end before the outbuilding. Armour, pipes and screens "
    "must not join the two. The armour is earthed at the house, so that a spade through it trips "
    "the feed. It ends at the outbuilding: cut back, insulated, labelled. Never the other way "
    f"round. The feed's switch breaks both poles. {FOLLOW}"
)
BONDS = (
    "Extraneous-conductive-parts (pipes, steel in the ground) are bonded where they come in. With "
    "PME not before the certifier has decided: the bond carries the supply's earth to the ground. "
    f"There the conductor is sized by the supply's neutral. {FOLLOW}"
)
NOTIFY = (
    "Ask building control, or a registered third-party certifier, BEFORE work starts. An "
    "electrician called at the end can't sign for wiring they didn't see. This is how it is in "
    f"England; other nations differ. {FOLLOW}"
)
AT_THE_HOUSE = (
    "Landing the feed in the house board is the certifier's: its tails stay live with the main "
    f"switch off. No seal is broken, no service fuse drawn. {FOLLOW}"
)
SERVICES = (
    "Know what is in the wall and the ground before you drill, dig or drive a rod: plans, "
    f"locator. Old sheds can hold asbestos: leave it, have it looked at. {FOLLOW}"
)
