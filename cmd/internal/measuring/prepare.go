package measuring

import (
	"fmt"

	"seamrail/cmd/internal/console"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/job"
	"seamrail/export/report/planreport"
	"seamrail/motion/base/unit"
	"seamrail/motion/calibrate"
)

// cautions come before anything moves, and wait for the word.
func (w *Walk) cautions() error {
	j, err := job.AtRest(w.File)
	if err != nil {
		return err
	}
	w.Ask.fold(console.NoEmergencyStop)
	for _, c := range planreport.Cautions(j.Plan, j.Schedule) {
		w.Ask.fold("  ! " + c)
	}
	w.Ask.fold("Ctrl-C, or Enter on a terminal, slows it down and stops; again, it aborts. Nothing goes beyond what you allow in the next questions.")
	return w.clear()
}

// clear asks for the word that the way is clear. A rig of software is in nobody's way.
func (w *Walk) clear() error {
	if w.Port.Virtual {
		return nil
	}
	yes, err := w.Ask.yes(question{key: "clear", words: "Is the way clear, and the switch that cuts motor power within reach?"})
	if err == nil && !yes {
		err = exit.Misused("nothing has moved")
	}
	return err
}

// begin makes where the axis stands known.
func (w *Walk) begin() error {
	h := w.hand
	switch {
	case h.opened:
		return nil
	case !h.switched() && !w.axis.Endless && !w.Port.Virtual:
		yes, err := w.Ask.yes(question{key: "at-home", words: fmt.Sprintf("%s has no switch. Bring it by hand to %s, which counts as its home. Is it there?", w.axis.Name, w.quantityOf(w.axis.Home))})
		if err != nil {
			return err
		}
		if !yes {
			return exit.Misused("nothing has moved")
		}
	}
	return h.here()
}

// insetShare of the travel is left free at each end unless the person allows more.
const insetShare = 0.1

// ends are those of the travel, or of what a table without an end is sent over.
func (w *Walk) ends() (low, high float64) {
	if w.axis.Endless {
		return -fullTurn, fullTurn
	}
	return w.axis.Min, w.axis.Max
}

func (w *Walk) inset() float64 {
	low, high := w.ends()
	return insetShare * (high - low)
}

// placeOf asks for a place of the axis.
func (w *Walk) placeOf(key, words string, usual, low, high float64) (float64, error) {
	if low > high {
		return 0, exit.Misused("there is no room for it: %s has travel from %s to %s", w.axis.Name, w.quantityOf(w.axis.Min), w.quantityOf(w.axis.Max))
	}
	q, err := w.Ask.quantity(question{key: key, usual: w.quantityOf(min(max(usual, low), high)), words: words}, low, high, w.dim())
	return q.Float(), err
}

// stretch asks between which places the axis may move.
func (w *Walk) stretch(shortest float64) (from, to float64, err error) {
	low, high := w.ends()
	if from, err = w.placeOf("from", fmt.Sprintf("Between which places may %s move? From", w.axis.Name), low+w.inset(), low, high-shortest); err != nil {
		return 0, 0, err
	}
	to, err = w.placeOf("to", "to", high-w.inset(), from+shortest, high)
	return from, to, err
}

const (
	fullTurn = 360
	// maxTurns is as far as a table may be sent for a measurement.
	maxTurns = 100
)

// lead is how far from beside a place is come to, in mm or degrees, so that play is taken
// up: as much as any belt or gear of a tabletop rig has, several times.
const lead = 5.0

// division asks what a mark is read to.
func (w *Walk) division(words, usual string, want ...unit.Dimension) (float64, error) {
	q, err := w.Ask.quantity(question{key: "division", usual: usual, words: words}, finestDivision, coarsestDivision, want...)
	return q.Float(), err
}

// What may be read to, in mm or degrees: finer, nobody reads on a bench; coarser, it is no
// division.
const (
	finestDivision   = 0.0005
	coarsestDivision = 10
)

// read asks for a reading. A rig of software reads its own machine, to the division.
func (w *Walk) read(key, words, picture string, division float64, want ...unit.Dimension) (unit.Quantity, error) {
	q := question{key: key, words: words, picture: picture}
	if w.hand != nil && w.hand.made != nil {
		q.auto = func() string { return w.quantityOf(calibrate.ToDivision(w.hand.truly(), division)) }
	}
	return w.Ask.quantity(q, -farthest, farthest, want...)
}

// set asks whether a mark is set. On a rig of software nobody has to set one.
func (w *Walk) set(words, picture string) (bool, error) {
	if w.Port.Virtual {
		return true, nil
	}
	return w.Ask.yes(question{key: "mark-set", picture: picture, words: words})
}

// farthest is beyond any ruler, in mm, and any angle that is read off.
const farthest = 100_000
