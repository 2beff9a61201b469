package measuring

import (
	"cmp"
	"fmt"
	"math"

	"seamrail/cmd/internal/exit"
	"seamrail/motion/base/unit"
	"seamrail/motion/calibrate"
)

// turn finds the ratio of a turntable from marked turns.
func (w *Walk) turn() (*Found, error) {
	most := float64(maxTurns)
	if !w.axis.Endless {
		most = math.Floor((w.axis.Travel() - lead) / fullTurn)
	}
	if most < 1 {
		return nil, exit.Misused("%s has no room for a whole turn, after which its mark would be back", w.axis.Name)
	}
	q, err := w.Ask.quantity(question{key: "turns", usual: "1 turn", picture: turnPicture,
		words: "Put a mark on the table and a pointer beside it. How many whole turns may it make? More tell the ratio better."}, 1, most, unit.Turns)
	if err != nil {
		return nil, err
	}
	turns := q.Float()
	if !q.Value.IsInt() {
		return doubtful(fmt.Errorf("%s are not whole turns, after which the mark would be back", q)), nil
	}
	division, err := w.division("To what can you read the mark off the pointer?", "0.5 deg", unit.Angle)
	if err != nil {
		return nil, err
	}
	beyond, err := w.beyond(turns, division)
	if err != nil {
		return nil, err
	}
	scale, err := calibrate.Turned(calibrate.Marked{Turns: turns, Beyond: beyond}, division)
	if err != nil {
		return doubtful(err), nil
	}
	f := &Found{Unit: "steps/deg"}
	return f, w.scaled(f, scale, "deg")
}

// beyond is how far beyond the pointer the mark stands after the turns.
func (w *Walk) beyond(turns, division float64) (float64, error) {
	q := question{key: "beyond", words: "How far is the mark past the pointer? In degrees, or in mm along the rim; with - where it falls short."}
	if w.hand != nil {
		if err := w.begin(); err != nil {
			return 0, err
		}
		at := w.axis.Min + lead
		if err := w.hand.from(-lead, at); err != nil {
			return 0, err
		}
		if yes, err := w.set("Set the pointer on the mark now. Is it there?", ""); err != nil || !yes {
			return 0, cmp.Or(err, exit.Misused("without a mark at its pointer no turn is measured, and none was made"))
		}
		if w.hand.made != nil {
			was := w.hand.truly()
			q.auto = func() string {
				return unit.Format(calibrate.ToDivision(w.hand.truly()-was-turns*fullTurn, division), unit.Angle)
			}
		}
		if err := w.hand.to(at + turns*fullTurn); err != nil {
			return 0, err
		}
	}
	got, err := w.Ask.quantity(q, -farthest, farthest, unit.Angle, unit.Length)
	if err != nil || got.Dim == unit.Angle {
		return got.Float(), err
	}
	radius, err := w.Ask.quantity(question{key: "radius", words: "How far from the middle of the table is that?"}, finestDivision, farthest, unit.Length)
	return calibrate.Arc(got.Float(), radius.Float()), err
}

// seamBound is what a table may be out by at the seam before an eye sees it, in degrees,
// where no picture says: at 100 mm from the middle that is 0.09 mm.
const seamBound = 0.05

// turnsLeft tells what a ratio that is not right does to the seam, where it adds up.
func (w *Walk) turnsLeft(f *Found, s calibrate.Scale) {
	each := s.Off(fullTurn)
	f.tell("at the seam", "each turn adds %+.3g deg, give or take %.2g: a ratio that is not right adds up, round after round", each.Value, each.Bound())
	if s.Ratio.Has(1) {
		return
	}
	f.tell("visible", "from %.2g turns on, where %.2g deg show", s.TurnsUntil(seamBound), seamBound)
}
