"""The contributors' own words for terms that the trade knows by more than one name.

Field to preferred term to the wordings that a contributor chooses from. What is not here they
write as the preferred term.
"""

from demo_habits import Words

PARVEL: Words = {
    "opened": {"opened": ("yes",), "partly opened": ("partly",), "not opened": ("no",)},
    "cover_material": {
        "silk": ("silk", "silk", "taffeta"),
        "wool": ("broadcloth", "wool"),
        "linen": ("linen", "holland"),
        "cotton": ("calico", "cotton"),
    },
    "cover_thickness": {"thin": ("thin", "fine"), "thick": ("thick", "heavy")},
    "cover_condition": {
        "shattered": ("shattered", "powdering", "in shreds"),
        "worn": ("worn", "rubbed"),
        "sound": ("good",),
        "moth-eaten": ("moth holes",),
    },
    "mould_material": {
        "wood": ("wood", "turned wood", "boxwood"),
        "bone": ("bone", "bone disc"),
        "pasteboard": ("card", "pasteboard"),
    },
    "mould_hole": {"pierced": ("yes",), "absent": ("no",)},
    "hole_fill": {
        "open": ("none", "nothing"),
        "absent": ("no hole",),
        "padded over": ("padding over",),
        "thread-filled": ("thread",),
        "fibre plug": ("cotton wool", "wadding in hole"),
        "cloth plug": ("rag", "cloth"),
        "paper disc": ("paper", "card disc"),
    },
    "thread": {"absent": ("none",)},
    "back_finish": {
        "cloth back": ("lined", "cloth"),
        "bare": ("open", "bare"),
        "thread-worked": ("laced threads",),
        "metal back": ("metal",),
        "japanned metal": ("japanned",),
    },
    "decoration": {
        "absent": ("none", "plain"),
        "embroidery": ("embroidered",),
        "beads": ("beaded",),
        "painting": ("painted",),
    },
}

MARCHWANE: Words = {
    "opened": {"opened": ("yes",), "partly opened": ("partly",), "not opened": ("no",)},
    "cover_colour": {"brown": ("brown", "snuff"), "blue": ("blue", "navy"), "red": ("crimson",)},
    "cover_thickness": {"thin": ("light",), "thick": ("heavy",)},
    "cover_condition": {
        "shattered": ("shattered silk",),
        "worn": ("fair", "worn"),
        "sound": ("good", "very good"),
        "moth-eaten": ("moth damage",),
    },
    "mould_material": {
        "wood": ("wooden", "wood"),
        "pasteboard": ("cardboard",),
        "metal": ("metal disc", "metal"),
    },
    "mould_shape": {"flat disc": ("flat",), "conical": ("cone",), "shell": ("two-part shell",)},
    "padding": {"absent": ("none",), "wadding": ("cotton wool",), "cloth": ("flannel",)},
    "hole_fill": {
        "open": ("none",),
        "absent": ("no hole",),
        "padded over": ("padding",),
        "thread-filled": ("filled with thread",),
        "fibre plug": ("stuffed with wadding", "tow"),
        "cloth plug": ("plug of cloth",),
        "paper disc": ("disc of paper",),
    },
    "back_finish": {"bare": ("none",), "metal back": ("metal",), "cloth back": ("cloth disc",)},
}

QUILLOW: Words = {
    "opened": {"partly opened": ("part opened",)},
    "cover_material": {"wool": ("woollen cloth",), "linen": ("linen", "cambric")},
    "cover_condition": {
        "shattered": ("shattered", "disintegrating"),
        "worn": ("worn", "threadbare"),
        "sound": ("sound", "good"),
        "moth-eaten": ("moth-eaten",),
    },
    "mould_material": {"wood": ("wood", "turned wood"), "pasteboard": ("card",)},
    "mould_hole": {"pierced": ("central hole", "pierced"), "absent": ("none",)},
    "padding": {"absent": ("none",), "cloth": ("cloth disc",)},
    "hole_fill": {
        "open": ("left open", "empty"),
        "absent": ("no hole",),
        "thread-filled": ("thread ends",),
        "fibre plug": ("wisp of wool",),
        "cloth plug": ("scrap of cloth",),
        "paper disc": ("newspaper", "paper"),
    },
    "cover_cut": {
        "circle": ("round",),
        "square with trimmed corners": ("square with corners off",),
        "octagon": ("eight-sided",),
    },
    "cover_drawn_up": {
        "gathered on a running thread": ("gathered",),
        "laced across": ("laced",),
        "crimped in metal back": ("clamped", "crimped"),
    },
    "attachment": {
        "thread shank": ("thread shank",),
        "cloth tuft": ("flexible shank",),
        "metal loop shank": ("metal loop",),
    },
}
