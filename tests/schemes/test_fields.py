"""The record's fields."""

from buttonstudy.schemes import fields

KINDS = {"id", "text", "length", "date", "term", "count", "opened"}
INSIDE = {
    "mould_diameter", "hole_diameter", "mould_material", "mould_shape", "mould_hole", "hole_fill",
    "padding", "cover_layers", "cover_cut",
}  # fmt: skip


def test_every_field_is_of_a_known_kind_and_is_defined() -> None:
    names = [field.field for field in fields()]
    assert len(names) == len(set(names))
    for field in fields():
        assert field.kind in KINDS
        assert field.label
        assert field.definition.endswith(".")


def test_what_a_cover_hides_is_an_inside_field() -> None:
    assert {field.field for field in fields() if field.inside} == INSIDE
