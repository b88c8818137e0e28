import pickle

from elevations.later import Later


def counted(calls, value):
    calls.append(value)
    return (value,)


def test_it_is_made_once_and_not_before_it_is_asked_for():
    calls = []
    later = Later(counted, calls, 7)
    assert calls == []
    assert later() == later() == (7,)
    assert calls == [7]


def test_it_travels_to_another_process_made_or_not():
    fresh, made = Later(divmod, 7, 2), Later(divmod, 9, 2)
    made()
    assert pickle.loads(pickle.dumps((fresh, made)))[0]() == (3, 1)
    assert pickle.loads(pickle.dumps((fresh, made)))[1]() == (4, 1)


def test_two_are_equal_when_what_they_give_is():
    assert Later(divmod, 7, 2) == Later(tuple, (3, 1))
