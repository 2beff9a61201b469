package mintime

// direct returns half the time of the quickest change between the end speeds,
// in seconds, and the distance it covers.
func (l *Leg) direct() (half, distance twofold) {
	if l.Start == l.End {
		return half, distance
	}
	change := add(l.Start, -l.End)
	if change.head < 0 {
		change = twofold{-change.head, -change.tail}
	}
	rise := l.Acc / l.Jerk
	if change.head <= l.Acc*rise {
		half = root(change, l.Jerk)
	} else {
		half = div(change, l.Acc)
		if rise > 0 {
			half = half.plus(div(twofold{l.Acc, 0}, l.Jerk))
		}
		half = twofold{half.head / 2, half.tail / 2}
	}
	return half, half.times(add(l.Start, l.End))
}
