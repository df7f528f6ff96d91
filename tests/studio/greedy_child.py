"""A tracing child whose picture unpacks to more memory than one may have."""

from service.studio import tracing_child


class _Greedy:
    @staticmethod
    def load():
        return lambda asked: bytearray(4_000_000_000)


if __name__ == "__main__":
    tracing_child.entry_points = lambda **_: [_Greedy]
    tracing_child.main()
