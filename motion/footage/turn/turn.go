// Package turn finds how long a product or a display stand takes for a turn, from how alike
// the frames of its recording are: nobody timed it, and no mark is on it.
package turn

import (
	"context"
	"fmt"

	"seamrail/motion/base/exact"
	"seamrail/motion/footage/alike"
)

// Question is what is known of a recording before.
type Question struct {
	Rate  exact.Rat // captured frames a real second; above 0
	Least int       // frames that the picture takes at least to come again; 0 is 4
	// Faces is how often the product looks the same in a full turn, as a person knows it: 6
	// for a lantern of six like panes, 1 for one that shows each side once; 0 where it is for
	// the footage to tell.
	Faces int
}

// Turn is how something turns. Uncertainties are standard ones (JCGM 100), one sigma. They
// come from how parts of the footage differ, and from nothing that all of it shares: the
// camera's clock is taken at its word.
type Turn struct {
	Repeat      float64 // frames after which the picture comes again, or nearly
	RepeatDoubt float64
	Faces       int // repeats in a full turn, by all that tells them apart
	// Told tells that something does: a person said how many faces there are, or they differ
	// enough. Where it is false the turn is that of one repeat, and may be several: nothing
	// in the picture tells like faces apart.
	Told bool
	// Hidden is by how much turns of so many faces may differ and not be told, as a share of
	// what any two frames differ by: if they do, the turn is a multiple of this one. It is 0
	// where a person said what a turn is, and 1 where the footage has no two turns.
	Hidden      float64
	Frames      float64 // a full turn
	FramesDoubt float64
	Period      float64 // s, a full turn
	PeriodDoubt float64
	Turns       float64   // of the footage
	Returns     []Return  // of which it was fitted
	Phases      []float64 // turns since frame 0, frame by frame, as it was seen; NaN where it was not
	Uneven      float64   // degrees, root mean square of those against a steady turn
}

// Return is a distance in frames at which the picture comes again.
type Return struct {
	Times    int     // the how manieth repeat
	Lag      float64 // frames
	Doubt    float64
	Unlike   float64 // what still differs, as a share of what any two frames differ by
	Fullness bool    // a whole number of full turns
}

const (
	leastRepeat = 4  // frames: below, nobody sees a turn
	mostFaces   = 24 // as many panes as a lantern may have
	leastFrames = 16 // of footage
	returnsUsed = 24 // of which a period is fitted; more add little
)

// Measure finds the turn. It fails if the rate is not above 0, if faces are not 0 to 24, if the
// footage is too short, if nothing in it moves, if it does not come again, or with the error of
// ctx.
func Measure(ctx context.Context, s *alike.Sketches, q Question) (Turn, error) {
	if err := q.check(s); err != nil {
		return Turn{}, err
	}
	f := newFilm(s)
	c, err := f.course(ctx)
	if err != nil {
		return Turn{}, err
	}
	d, err := c.firstDip(max(q.Least, leastRepeat))
	if err != nil {
		return Turn{}, err
	}
	m := &measuring{film: f, course: c, dip: d, repeat: d.at}
	if err := m.early(ctx); err != nil {
		return Turn{}, err
	}
	t := m.faces(q)
	if err := m.fit(ctx, &t); err != nil {
		return Turn{}, err
	}
	rate := q.Rate.Float()
	t.Period, t.PeriodDoubt = t.Frames/rate, t.FramesDoubt/rate
	t.Turns = float64(s.Len()) / t.Frames
	m.phases(&t)
	return t, ctx.Err()
}

func (q Question) check(s *alike.Sketches) error {
	switch {
	case q.Rate.Sign() <= 0:
		return fmt.Errorf("a rate of %s frames a second is none; it must be above 0", q.Rate)
	case q.Faces < 0 || q.Faces > mostFaces:
		return fmt.Errorf("a product of %d faces is not looked for; 1 to %d are, and 0 where it is not known", q.Faces, mostFaces)
	case s.Len() < leastFrames:
		return fmt.Errorf("footage of %d frames shows no turn; it must have %d or more", s.Len(), leastFrames)
	}
	return nil
}
