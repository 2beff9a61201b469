package picture

// Examine looks at the picture of a move. It returns an error, a fault.List,
// where numbers of the scene contradict each other or cannot be; what is only
// missing is named in the verdicts.
func Examine(m Motion, s Scene) (Report, error) {
	e, err := newEye(m, s)
	if err != nil {
		return Report{}, err
	}
	rows, every := e.rows()
	r := Report{Rows: rows, Every: every, Assumed: e.assumed}
	if e.scaled() {
		for _, spot := range e.spotsIn(e.at(0)) {
			r.Points = append(r.Points, spot.name)
		}
	}
	r.Verdicts = append(r.Verdicts, e.clearanceVerdict())
	if s.Hole != nil {
		r.Verdicts = append(r.Verdicts, e.holeVerdict())
	}
	r.Verdicts = append(r.Verdicts, e.magnificationVerdict(rows), e.fieldVerdict(rows), e.smearVerdict(rows),
		e.speedVerdict(rows), e.angleVerdict())
	for _, i := range e.seen() {
		r.Verdicts = append(r.Verdicts, e.stepsVerdict(i, rows), e.backlashVerdict(i))
	}
	r.Verdicts = append(r.Verdicts, e.focusVerdict(rows), e.apertureVerdict(rows), e.exposureVerdict(rows),
		e.flickerVerdict(), e.colourVerdict(), e.seamVerdict())
	if s.Dark != nil {
		r.Verdicts = append(r.Verdicts, e.darkVerdict())
	}
	return r, nil
}
