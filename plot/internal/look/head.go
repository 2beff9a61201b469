package look

import "gonum.org/v1/plot/vg"

// Edge is the margin round a sheet, in points.
const Edge vg.Length = 18

// HeadHeight is how much of a sheet Head takes with these lines.
func HeadHeight(lines ...string) vg.Length {
	h := Edge + Huge + 11
	for _, line := range lines {
		if line != "" {
			h += 17
		}
	}
	return h
}

// Head writes a title and lines of small print at the top of the sheet and
// returns the y below them. Empty lines are left out.
func (s *Sheet) Head(title string, lines ...string) vg.Length {
	y, room := s.Height-Edge-Huge, s.Width-2*Edge
	st := Style{Size: Huge, Bold: true, Color: Ink, Align: -1}
	s.Text(Edge, y, Fit(title, room, st), st)
	st = Style{Size: Body, Color: Muted, Align: -1}
	y -= 3
	for _, line := range lines {
		if line != "" {
			y -= 17
			s.Text(Edge, y, Fit(line, room, st), st)
		}
	}
	return s.Height - HeadHeight(lines...)
}
