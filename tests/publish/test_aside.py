import pytest

from buttonstudy.publish import aside
from buttonstudy.publish.aside import (
    Working,
    clear_leftovers,
    move_into_place,
    working_folder,
    write_aside,
)
from buttonstudy.publish.errors import PublishError


def names(folder):
    return sorted(path.name for path in folder.iterdir())


def fill(folder, words):
    folder.mkdir(exist_ok=True)
    (folder / "page.html").write_text(words)


def test_a_file_is_there_whole_or_not_at_all(tmp_path, monkeypatch):
    write_aside(tmp_path / "a.txt", b"first")

    def full(self, target):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(aside.Path, "replace", full)
    with pytest.raises(PublishError, match=r"a.txt could not be written: no space left on device"):
        write_aside(tmp_path / "a.txt", b"second")
    assert names(tmp_path) == ["a.txt"]
    assert (tmp_path / "a.txt").read_bytes() == b"first"


def test_what_could_not_be_written_is_named_as_its_user_knows_it(tmp_path, monkeypatch):
    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(aside.Path, "replace", full)
    with working_folder(tmp_path / "report") as working, pytest.raises(PublishError) as told:
        write_aside(working.folder / "tables" / "a.csv", b"first")
    assert str(told.value) == (
        f"{tmp_path / 'report' / 'tables' / 'a.csv'} could not be written: no space left on "
        "device. Make room there, or choose another place."
    )


@pytest.mark.parametrize("can_exchange", [True, False])
def test_a_finished_folder_takes_the_place_of_the_earlier_one(tmp_path, monkeypatch, can_exchange):
    if not can_exchange:
        monkeypatch.setattr(aside, "exchange", lambda one, other: False)
    place = tmp_path / "report"
    for words in ("first", "second"):
        with working_folder(place) as working:
            fill(working.folder, words)
            move_into_place(working)
        assert (place / "page.html").read_text() == words
        assert names(tmp_path) == ["report"]


def test_a_run_that_fails_leaves_the_earlier_folder_and_nothing_else(tmp_path):
    fill(tmp_path / "report", "first")

    def run():
        with working_folder(tmp_path / "report") as working:
            fill(working.folder, "second")
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        run()
    assert names(tmp_path) == ["report"]
    assert (tmp_path / "report" / "page.html").read_text() == "first"


def test_a_move_that_fails_half_way_puts_the_earlier_folder_back(tmp_path, monkeypatch):
    fill(tmp_path / "report", "first")
    monkeypatch.setattr(aside, "exchange", lambda one, other: False)

    def run():
        with working_folder(tmp_path / "report") as working:
            working.folder.rmdir()  # so that the second of the two moves must fail
            move_into_place(working)

    with pytest.raises(PublishError, match=r"could not take the place of .*report"):
        run()
    assert (tmp_path / "report" / "page.html").read_text() == "first"
    assert names(tmp_path) == ["report"]


def test_two_runs_at_once_do_not_mix(tmp_path):
    place = tmp_path / "report"
    with working_folder(place) as one, working_folder(place) as other:
        fill(one.folder, "one")
        fill(other.folder, "other")
        clear_leftovers(tmp_path)
        assert (one.folder / "page.html").read_text() == "one"
        move_into_place(other)
        move_into_place(one)
    assert (place / "page.html").read_text() == "one"
    assert names(tmp_path) == ["report"]


def test_leftovers_of_a_dead_run_are_taken_away(tmp_path):
    dead = Working(tmp_path / "report", "abcd")
    fill(dead.folder, "half")
    dead.lock.touch()
    fill(tmp_path / ".report.mine", "of a user")
    with working_folder(tmp_path / "other"):
        assert not dead.folder.exists()
    assert names(tmp_path) == [".report.mine"]


def test_a_folder_that_a_dead_run_had_moved_away_is_put_back(tmp_path):
    dead = Working(tmp_path / "report", "abcd")
    fill(dead.earlier, "first")
    fill(dead.folder, "second")
    dead.lock.touch()
    clear_leftovers(tmp_path)
    assert (tmp_path / "report" / "page.html").read_text() == "first"
    assert names(tmp_path) == ["report"]


@pytest.fixture
def as_on_windows(monkeypatch):
    """Let no file be taken away while it is open; give the files that were opened for a lock."""
    held = []

    def hold(lock, *, create):
        file = whole(lock, create=create)
        held.append((lock, file))
        return file

    def unlink(path, missing_ok=False):
        if any(lock == path and file and not file.closed for lock, file in held):
            raise PermissionError(13, "The file is used by another process", str(path))
        take_away(path, missing_ok)

    whole, take_away = aside._hold, aside.Path.unlink
    monkeypatch.setattr(aside, "_hold", hold)
    monkeypatch.setattr(aside.Path, "unlink", unlink)
    return held


def test_a_lock_is_taken_away_where_open_files_stay(tmp_path, as_on_windows):
    dead = Working(tmp_path / "report", "abcd")
    dead.lock.touch()
    write_aside(tmp_path / "a.txt", b"first")
    assert names(tmp_path) == ["a.txt"]
    assert [file.closed for _, file in as_on_windows] == [True, True]


def test_a_lock_that_another_run_took_away_is_not_kept_open(tmp_path, monkeypatch, as_on_windows):
    there = aside.Path.exists

    def exists(path):  # the first lock was taken for a dead run's
        return path.suffix != ".lock" or (len(as_on_windows) > 1 and there(path))

    monkeypatch.setattr(aside.Path, "exists", exists)
    with working_folder(tmp_path / "report"):
        assert [file.closed for _, file in as_on_windows] == [True, False]
    assert names(tmp_path) == []


@pytest.mark.parametrize("fails", ["rename", "open"])
def test_leftovers_that_cannot_be_taken_away_hinder_nobody(tmp_path, monkeypatch, fails):
    dead = Working(tmp_path / "report", "abcd")
    fill(dead.earlier, "first")
    dead.lock.touch()
    whole = getattr(aside.Path, fails)

    def fail(path, *given):
        if path in (dead.earlier, dead.lock):
            raise PermissionError(13, "Permission denied", str(path))
        return whole(path, *given)

    with monkeypatch.context() as patch:
        patch.setattr(aside.Path, fails, fail)
        write_aside(tmp_path / "a.txt", b"first")
    assert (dead.earlier / "page.html").read_text() == "first"
    clear_leftovers(tmp_path)
    assert names(tmp_path) == ["a.txt", "report"]


def test_a_place_below_a_file_is_refused_in_words(tmp_path):
    (tmp_path / "file").touch()
    with (
        pytest.raises(PublishError, match=r"could not be written: .*Choose a place"),
        working_folder(tmp_path / "file" / "report"),
    ):
        pass
