"""The one error of this package."""


class UnreadablePicture(Exception):  # noqa: N818 - the name is what the author reads
    """A picture that cannot be used; `reason` tells its author why, in plain words."""

    def __init__(self, reason: str) -> None:
        super().__init__(reason)
        self.reason = reason
