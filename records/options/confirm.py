"""Who has the last word on a design, said with everything that is chosen or bought."""

CONFIRM = "The designer and the certifier confirm the design."
BEFORE_BUYING = "The designer and the certifier confirm the design before you buy."
