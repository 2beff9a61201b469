package lookahead

import "math"

// profile is a trapezoid of speed.
type profile struct {
	entry, top, exit float64 // mm/s
	up, flat, down   float64 // mm
}

// fit returns the quickest profile over length mm from speed entry that
// reaches no more than nominal and ends at exit, or as near to it as the
// acceleration allows.
func fit(length, entry, nominal, exit, acc float64) profile {
	reach := 2 * acc * length
	exit = min(exit, math.Sqrt(entry*entry+reach))
	if entry*entry-exit*exit > reach {
		exit = math.Sqrt(entry*entry - reach)
	}
	top := min(math.Sqrt((reach+entry*entry+exit*exit)/2), max(nominal, entry))
	p := profile{entry: entry, top: top, exit: exit}
	p.up = (top*top - entry*entry) / (2 * acc)
	p.down = (top*top - exit*exit) / (2 * acc)
	p.flat = length - p.up - p.down
	return p
}

// part is a stretch from one speed to another.
type part struct{ length, from, to float64 }

func (p profile) parts() [3]part {
	return [3]part{{p.up, p.entry, p.top}, {p.flat, p.top, p.top}, {p.down, p.top, p.exit}}
}

// seconds returns 0 for a part without length.
func (s part) seconds() float64 {
	if s.length <= 0 {
		return 0
	}
	return 2 * s.length / (s.from + s.to)
}

// cut returns the first sec seconds of the part.
func (s part) cut(sec float64) part {
	share := sec / s.seconds()
	to := s.from + (s.to-s.from)*share
	return part{(s.from + to) / 2 * sec, s.from, to}
}
