package picture

// Examine looks at the picture of a move. It returns an error, a fault.List,
// where numbers of the scene contradict each other or cannot be; what is only
// missing is named in the verdicts.
func Examine(m Motion, s Scene) (Report, error) {
	e, err := newEye(m, s)
	if err != nil {
		return Report{}, err
	}
	rows, every := e.rows(mostRows, e.row)
	r := Report{Rows: rows, Every: every, Assumed: e.assumed, Bounds: e.bounds}
	if e.scaled() {
		for _, spot := range e.spotsIn(e.at(0)) {
			r.Points = append(r.Points, spot.name)
		}
	}
	r.add(e.clearanceVerdict(), e.approachVerdict())
	for _, h := range s.Holes {
		r.add(e.holeVerdict(h))
	}
	r.add(e.magnificationVerdict(rows), e.fieldVerdict(rows))
	r.Verdicts = append(r.Verdicts, e.paced(rows)...)
	r.add(e.angleVerdict())
	for _, i := range e.stepped() {
		r.add(e.backlashVerdict(i))
	}
	r.add(e.focusVerdict(rows), e.apertureVerdict(rows), e.exposureVerdict(rows), e.flickerVerdict(), e.colourVerdict())
	if s.Dark != nil {
		r.add(e.darkVerdict())
	}
	return r, nil
}

// Glance looks only at what the pace of a loop decides, in at most so many of
// its frames. It is for those who try many loops; let Examine have the last
// word.
func Glance(m Motion, s Scene, frames int64) (Report, error) {
	e, err := newEye(m, s)
	if err != nil {
		return Report{}, err
	}
	rows, every := e.rows(frames, e.quickRow)
	return Report{Rows: rows, Every: every, Assumed: e.assumed, Verdicts: e.paced(rows)}, nil
}

func (r *Report) add(v ...Verdict) { r.Verdicts = append(r.Verdicts, v...) }

// paced are the verdicts that the pace of the loop decides.
func (e *eye) paced(rows []Row) []Verdict {
	out := []Verdict{e.smearVerdict(rows), e.speedVerdict(rows)}
	for _, i := range e.stepped() {
		out = append(out, e.stepsVerdict(i, rows))
	}
	out = append(out, e.seamVerdict())
	for i := range out {
		out[i].Paced = true
	}
	return out
}
