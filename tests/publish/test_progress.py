from io import StringIO

from buttonstudy.publish.progress import Progress


class Terminal(StringIO):
    def isatty(self):
        return True


def test_a_log_gets_only_the_lines_that_stay():
    log = StringIO()
    progress = Progress(log)
    progress.now("reading")
    progress.line("read")
    assert log.getvalue() == "read\n"


def test_a_terminal_sees_what_happens_now_until_the_next_line():
    terminal = Terminal()
    progress = Progress(terminal)
    progress.now("reading")
    progress.now("checking")
    progress.line("done")
    assert terminal.getvalue() == "reading\r       \rchecking\r        \rdone\n"


def test_without_a_stream_it_is_silent():
    Progress().line("x")
    Progress().now("x")
