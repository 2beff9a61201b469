package picture

import (
	"slices"

	"seamrail/motion/scene"
)

// Examine looks at the picture of a move, and tries what may cure what is found. It
// returns an error, a fault.List, where numbers of the scene contradict each other
// or cannot be; what is only missing is named in the verdicts.
func Examine(m Motion, s scene.Scene) (Report, error) {
	e, r, err := look(m, s)
	if err != nil {
		return Report{}, err
	}
	e.prescribe(&r)
	return r, nil
}

// Look is Examine without cures, for those who look at many moves.
func Look(m Motion, s scene.Scene) (Report, error) {
	_, r, err := look(m, s)
	return r, err
}

func look(m Motion, s scene.Scene) (*eye, Report, error) {
	e, err := newEye(m, s)
	if err != nil {
		return nil, Report{}, err
	}
	rows, every := e.rows(maxRows, e.row)
	r := Report{Rows: rows, Every: every, Assumed: e.assumed, Bounds: e.bounds, Verdicts: answers(e.checks(rows)), Fades: e.fades, Pulls: e.pullings()}
	e.lightRows(rows)
	if e.scaled() {
		for _, spot := range e.spotsIn(e.at(0)) {
			r.Points = append(r.Points, spot.name)
		}
	}
	return e, r, nil
}

// Glance looks only at what the pace of a loop decides, in at most so many of
// its frames. It is for those who try many loops; let Examine have the last
// word.
func Glance(m Motion, s scene.Scene, frames int64) (Report, error) {
	e, err := newEye(m, s)
	if err != nil {
		return Report{}, err
	}
	row := e.quickRow
	if e.byHand() { // whose focus the pace decides too
		row = e.row
	}
	rows, every := e.rows(frames, row)
	asked := slices.DeleteFunc(e.checks(rows), func(c check) bool { return !c.paced })
	return Report{Rows: rows, Every: every, Assumed: e.assumed, Verdicts: answers(asked)}, nil
}
