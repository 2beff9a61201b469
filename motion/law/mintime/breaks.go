package mintime

// Breaks returns the times at which the jerk changes, in rising order, both
// ends included: 0 and the duration. Between two of them the position is a
// cubic.
func (m *Move) Breaks() []float64 {
	out := []float64{0}
	for i := range m.parts {
		if at := m.parts[i].until; at > out[len(out)-1] && at < m.seconds {
			out = append(out, at)
		}
	}
	return append(out, m.seconds)
}
