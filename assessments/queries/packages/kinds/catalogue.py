"""The kinds of question that a package can hold. A kind without a line here stays in the school, and that is said."""

from assessments.queries.packages.shape import Builder

from . import name_and_decide, point_at_it, side_by_side, which_character

BUILDERS: dict[str, Builder] = {
    "name_and_decide": name_and_decide.build,
    "which_character": which_character.build,
    "point_at_it": point_at_it.build,
    "side_by_side": side_by_side.build,
}
