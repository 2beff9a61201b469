package against

import "seamrail/motion/vibration/spring"

// sharpen looks once more for a swing that was taken up, now that all else is known better: in what
// is left over with the swing itself put back.
func (l *laid) sharpen() {
	for _, x := range l.extras {
		s := x.label.swing
		if s == nil {
			continue
		}
		if s.driven {
			l.drive(x)
			continue
		}
		wins := s.wins
		l.fill(wins, x.label.along)
		laid := l.laidOn(x)
		for j, w := range wins {
			for n, i := range w.frames {
				wins[j].values[n] += laid[i].dot(x.label.along)
			}
		}
		*s = improved(wins, swung(wins, s.Spring), spring.MinFrequency, topShare*l.rate/2)
		s.wins = wins
		s.doubt(wins)
	}
	l.fit()
	l.doubts()
}

// drive does the same for what an axis sets its load to.
func (l *laid) drive(x extra) {
	left := l.r
	for k := range left {
		left[k] = append([]float64(nil), l.r[k]...)
	}
	for i, on := range l.laidOn(x) {
		for k := range left {
			left[k][i] += on[k]
		}
	}
	if d, ok := l.newDriver(x.label.axis, left); ok {
		d.improve(x.label.swing, spring.MinFrequency, topShare*l.rate/2)
	}
}
