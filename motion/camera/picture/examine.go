package picture

import (
	"context"
	"slices"

	"seamrail/motion/scene"
)

// Examine looks at the picture of a move, and tries what may cure what is found. It
// returns an error, a fault.List, where numbers of the scene contradict each other
// or cannot be; what is only missing is named in the verdicts.
func Examine(m Motion, s scene.Scene) (Report, error) {
	return ExamineUntil(context.Background(), m, s)
}

// ExamineUntil is Examine until ctx ends, whose error it then returns.
func ExamineUntil(ctx context.Context, m Motion, s scene.Scene) (Report, error) {
	e, r, err := lookAt(ctx, m, s, maxRows)
	if err != nil {
		return Report{}, err
	}
	e.prescribe(&r)
	return r, ctx.Err()
}

// Look is Examine without cures, for those who look at many moves.
func Look(m Motion, s scene.Scene) (Report, error) {
	_, r, err := lookAt(context.Background(), m, s, maxRows)
	return r, err
}

// Sketch is Look in at most so many frames, evenly spaced, for those who change a move
// while they look, until ctx ends. What happens between two of them it does not see; let
// Examine have the last word.
func Sketch(ctx context.Context, m Motion, s scene.Scene, frames int64) (Report, error) {
	_, r, err := lookAt(ctx, m, s, frames)
	return r, err
}

// Peek is Look in no frame: the error is the same, and what a hand does to the focus.
func Peek(m Motion, s scene.Scene) (Report, error) {
	e, err := newEye(m, s)
	if err != nil {
		return Report{}, err
	}
	return Report{Pulls: e.pullings()}, nil
}

func lookAt(ctx context.Context, m Motion, s scene.Scene, frames int64) (*eye, Report, error) {
	e, err := newEye(m, s)
	if err != nil {
		return nil, Report{}, err
	}
	e.until, e.atMost = ctx, frames
	rows, every := e.rows(frames, e.row)
	r := Report{Rows: rows, Every: every, Assumed: e.assumed, Bounds: e.bounds, Verdicts: e.answers(e.checks(rows)), Fades: e.fades, Pulls: e.pullings()}
	if e.ended() {
		return nil, Report{}, ctx.Err()
	}
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
	return Report{Rows: rows, Every: every, Assumed: e.assumed, Verdicts: e.answers(asked)}, nil
}
