"""Letters for long lists: only for those that come again, and never with a name lost."""

from hypothesis import given
from hypothesis import strategies as st

from server.crew.part_groups import in_short, lettered

A = ("a", "b", "c", "d")
B = ("e", "f", "g", "h")


def test_lists_that_come_again_get_a_letter():
    assert lettered([A, B, A, ("z",), ("z",)]) == {"A": A}


def test_a_list_of_lettered_lists_gets_none():
    groups = lettered([A, B, A + B, A, B, A + B])
    assert groups == {"A": A, "B": B}
    assert in_short(A + B, groups) == (("A", "B"), ())
    assert in_short((*A, "x"), groups) == (("A",), ("x",))
    assert in_short(("a", "x"), groups) == ((), ("a", "x"))


NAMES = st.lists(st.sampled_from("abcdefgh"), unique=True, max_size=8).map(tuple)


@given(st.lists(NAMES, max_size=12))
def test_no_name_is_lost_or_said_twice(lists):
    groups = lettered(lists)
    for names in lists:
        letters, left = in_short(names, groups)
        told = [name for letter in letters for name in groups[letter]] + list(left)
        assert sorted(told) == sorted(names)
