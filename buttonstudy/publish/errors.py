"""What goes wrong while publishing, told in sentences that a researcher can act on.

Every error of this part carries one or two full sentences that say what could not be done and
what to do, so that the command line can print them as they stand.
"""


class PublishError(Exception):
    """Something could not be written, run or shown; the message says why and what to do."""


class CallError(PublishError):
    """What was asked for makes no sense: an unknown notebook, parameter or scheme."""
