from kbgen.pictures.badge_places import Point, place


def test_a_single_badge_keeps_its_full_size_and_a_leader_line() -> None:
    layout = place(700, 400, [Point(350, 200)], 21)
    assert layout.scale == 1
    (spot,) = layout.spots
    assert 21 < spot.badge.distance(spot.target) < 3 * 21


def test_a_hundred_callouts_on_one_point_still_find_places() -> None:
    layout = place(700, 400, [Point(350, 200)] * 100, 21)
    assert len({spot.badge for spot in layout.spots}) == 100


def test_badges_shrink_in_a_picture_lower_than_a_badge() -> None:
    layout = place(700, 30, [Point(10, 10), Point(20, 20)], 21)
    assert layout.scale * 21 <= 15


def test_a_badge_does_not_cover_the_target_of_another() -> None:
    targets = [Point(350 + 46 * step, 200) for step in range(-3, 4)]
    layout = place(700, 400, targets, 21)
    for spot in layout.spots:
        assert min(spot.badge.distance(target) for target in targets) > 21
