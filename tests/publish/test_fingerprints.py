from buttonstudy.publish import fingerprints


def test_the_kit_is_known_by_all_its_files(tmp_path, monkeypatch):
    monkeypatch.setattr(fingerprints, "__file__", str(tmp_path / "publish" / "fingerprints.py"))
    hashes = set()
    for name, text in [("a.py", "1"), ("a.py", "2"), ("tables/b.csv", "1"), ("c.pyc", "1")]:
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text(text)
        hashes.add(fingerprints.kit_fingerprint.__wrapped__())
    assert len(hashes) == 3  # what Python keeps of compiled code does not count


def test_files_are_known_by_name_and_content(tmp_path):
    (tmp_path / "a.csv").write_text("1")
    (tmp_path / "b.csv").write_text("1")
    a, b = fingerprints.files_below(tmp_path)
    assert fingerprints.fingerprint_of_files([a]) != fingerprints.fingerprint_of_files([b])
    assert fingerprints.files_below(a) == [a]
    assert fingerprints.files_below(tmp_path / "none") == []
