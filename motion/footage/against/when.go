package against

// planned is the planned frame that a frame of the recording shows.
func (l *laid) planned(i float64) float64 {
	t := i
	for _, w := range l.warps {
		t -= w.late * at(w.shape, i)
	}
	return t
}

// at is a shape between its frames, and beyond them as it was.
func at(shape []float64, i float64) float64 {
	if len(shape) == 0 {
		return 1
	}
	i = min(max(i, 0), float64(len(shape)-1))
	k := min(int(i), max(0, len(shape)-2))
	if k+1 >= len(shape) {
		return shape[k]
	}
	return shape[k] + (i-float64(k))*(shape[k+1]-shape[k])
}

// shown is the frame of the recording, a fraction, that shows a planned frame; before and after the
// recording by the time that it has at its ends.
func (l *laid) shown(planned float64) float64 {
	end := l.n - 1
	switch {
	case planned <= l.when[0]:
		return planned - l.when[0]
	case planned >= l.when[end]:
		return float64(end) + planned - l.when[end]
	}
	for i := range end { // time may stand or jump where a pause is longer: the first frame counts
		if a, b := l.when[i], l.when[i+1]; a <= planned && planned < b {
			return float64(i) + (planned-a)/(b-a)
		}
	}
	return float64(end)
}
