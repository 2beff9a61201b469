package measuring

import (
	"fmt"
	"math"

	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/calibrate"
	"seamrail/motion/spec/rig"
)

// stretches are how often the same two marks are read: twice, which shows a slip.
const stretches = 2

// shortestStretch is how far marks must be apart at least, in mm: nearer, a ruler's own
// divisions are a hundredth of it.
const shortestStretch = 20

// steps finds the steps a millimetre with a ruler.
func (w *Walk) steps() (*Found, error) {
	division, err := w.division("What is the smallest division of the ruler? A mark is read to the nearest.", "1 mm", unit.Length)
	if err != nil {
		return nil, err
	}
	seen, err := w.stretches(division)
	if err != nil {
		return nil, err
	}
	told := seen[0].Told
	q, err := w.Ask.quantity(question{key: "ruler-error", usual: unit.Format(calibrate.ClassTwo(told), unit.Length),
		words: "By how much may the ruler itself be out over that stretch? Class II, where nothing is printed on it:"}, 0, coarsestDivision, unit.Length)
	if err != nil {
		return nil, err
	}
	ruler := calibrate.Ruler{Division: division, Wrong: q.Float()}
	scale, err := ruler.Scale(seen)
	if err != nil {
		return doubtful(err), nil
	}
	if scale, err = w.unitSlip(ruler, scale, seen); err != nil {
		return nil, err
	}
	f := &Found{Unit: "steps/mm"}
	return f, w.scaled(f, scale, "mm")
}

// doubtful is a measurement that found nothing but a doubt.
func doubtful(err error) *Found {
	f := &Found{}
	f.doubt("%v. Nothing is changed.", err)
	return f
}

// stretches has the axis go from mark to mark, or asks for what was read when it did.
func (w *Walk) stretches(division float64) (seen []calibrate.Stretch, err error) {
	if w.hand == nil {
		return w.byHand()
	}
	from, to, err := w.stretch(shortestStretch + lead)
	if err != nil {
		return nil, err
	}
	if err := w.begin(); err != nil {
		return nil, err
	}
	from += lead // both marks are come to upward
	picture := rulerPicture
	for range stretches {
		s := calibrate.Stretch{Told: to - from}
		for _, m := range []struct {
			key  string
			at   float64
			into *float64
		}{{"mark-a", from, &s.From}, {"mark-b", to, &s.To}} {
			if err := w.hand.from(-lead, m.at); err != nil {
				return nil, err
			}
			q, err := w.read(m.key, fmt.Sprintf("It stands at %s by its count. What does the ruler read?", w.quantityOf(m.at)), picture, division, unit.Length)
			if err != nil {
				return nil, err
			}
			*m.into, picture = q.Float(), ""
		}
		seen = append(seen, s)
	}
	return seen, nil
}

// byHand asks for one stretch that was measured already.
func (w *Walk) byHand() ([]calibrate.Stretch, error) {
	var got [2]float64
	told, err := w.told()
	if err != nil {
		return nil, err
	}
	for i, q := range [2][2]string{
		{"mark-a", "What did the ruler read where it set out?"},
		{"mark-b", "And where it came to?"},
	} {
		v, err := w.read(q[0], q[1], "", 0, unit.Length)
		if err != nil {
			return nil, err
		}
		got[i] = v.Float()
	}
	return []calibrate.Stretch{{Told: told, From: got[0], To: got[1]}}, nil
}

// told asks how far the axis was told to go, which is no further than its travel.
func (w *Walk) told() (float64, error) {
	var q unit.Quantity
	most := w.axis.Max - w.axis.Min
	_, err := w.Ask.ask(question{key: "told", picture: rulerPicture, words: "How far was it told to go, both marks come to from the same side?", check: func(text string) (err error) {
		if q, err = unit.ParseAs(text, unit.Length); err == nil && math.Abs(q.Float()) > most {
			err = fmt.Errorf("%s is further than axis %s can go: its travel is %s, from %s to %s", q, w.axis.Name, w.quantityOf(most), w.quantityOf(w.axis.Min), w.quantityOf(w.axis.Max))
		}
		return err
	}})
	return q.Float(), err
}

// unitSlip asks about readings that are out by what one unit is of another: one mark of
// them, which can turn the way round, or both.
func (w *Walk) unitSlip(r calibrate.Ruler, s calibrate.Scale, seen []calibrate.Stretch) (calibrate.Scale, error) {
	went := fmt.Sprintf("By the readings it went %.4g for each one it was told", s.Ratio.Value)
	if s.Ratio.Value < 0 {
		went += ", the other way: the ruler lies the other way round, the axis goes so, or one mark was misread"
	}
	slip, is := s.Slip()
	if one, alone := calibrate.OneMarkSlip(seen); alone && !(is && s.Ratio.Value > 0) {
		yes, err := w.Ask.yes(question{key: "one-mark", words: fmt.Sprintf(
			"%s. If mark %s alone was ten times off, %s in place of %s, it went as far as told. y takes it so, n as it stands.", went, one.Mark, w.quantityOf(one.Meant), w.quantityOf(one.Read))})
		if err != nil || !yes {
			return s, err
		}
		return r.Scale(one.Mended)
	}
	if !is {
		return s, nil
	}
	yes, err := w.Ask.yes(question{key: "wrong-unit", words: fmt.Sprintf(
		"%s: %s y takes the readings as written in the wrong unit, n as they stand.", went, slip.Words)})
	if err != nil || !yes {
		return s, err
	}
	for i := range seen {
		seen[i].From, seen[i].To = seen[i].From*slip.Factor, seen[i].To*slip.Factor
	}
	return r.Scale(seen)
}

// boundWanted is how well a way should be known, in mm or degrees, where a picture does
// not say: a tenth, which at a third of life size is some pixels.
const boundWanted = 0.1

// scaled tells what a scale means, and gives it lines.
func (w *Walk) scaled(f *Found, s calibrate.Scale, unitName string) error {
	now := w.axis.StepsPerUnit.Float()
	steps := s.Steps(now)
	f.Value = steps
	f.tell("steps", "%s per %s, give or take %.2g (95 %%)", known(steps.Value, steps.Sigma), unitName, steps.Bound())
	f.tell("the file has", "%s, from %s", known(now, 0), w.axis.Mechanics)
	if s.Ratio.Value < 0 {
		turned, err := w.Ask.yes(question{key: "other-way", words: "By the ruler it goes the other way. Do the ruler's numbers grow the way that positions should?"})
		if err != nil {
			return err
		}
		if turned {
			w.reverse(f)
		}
	}
	w.left(f, s)
	if steps.Has(now) {
		f.tell("so", "what the file has lies within that: %s", unchanged(f))
		return nil
	}
	return w.stepLines(f, steps)
}

// unchanged says what is to be changed where the number of the file stands.
func unchanged(f *Found) string {
	if len(f.Lines) > 0 {
		return "its direction alone is to be changed"
	}
	return "nothing is to be changed"
}

// reverse turns the axis round.
func (w *Walk) reverse(f *Found) {
	old, text := "forward", "reverse"
	if w.axis.Reverse {
		old, text = text, old
	}
	f.line(w.path("direction"), old, text)
}

func (w *Walk) path(key string) string { return source.Join("axis", w.axis.Name) + "." + key }

// left tells what is wrong with a way by the file's steps, and what is left at the seam.
func (w *Walk) left(f *Found, s calibrate.Scale) {
	way := s.Told
	off, u := s.Off(way), w.axis.Unit()
	px := ""
	if w.PixelsPerMM > 0 && w.axis.Kind == rig.Linear {
		px = fmt.Sprintf(", which is %.2g px, give or take %.2g", off.Value*w.PixelsPerMM, off.Bound()*w.PixelsPerMM)
	}
	f.tell("a way of "+known(way, 0), "goes %+.3g %s further than told, give or take %.2g%s", off.Value, u, off.Bound(), px)
	if w.axis.Kind == rig.Rotary {
		w.turnsLeft(f, s)
	} else {
		f.tell("at the seam", "nothing is left, whatever the scale: a loop that comes back closes in steps. What is wrong is the travel, and every place")
	}
	n := s.Needed(way, boundWanted)
	switch {
	case off.Bound() <= boundWanted:
		f.tell("known to", "%.2g %s over that way: it does for %.2g", off.Bound(), u, boundWanted)
	case w.axis.Kind == rig.Rotary:
		f.tell("to know it", "to %.2g deg, %.0f turns would do", boundWanted, math.Ceil(n/fullTurn))
	default:
		f.tell("to know it", "to %.2g mm, marks %.0f mm apart would do, or a finer ruler; reading these more often would not, since they are rounded alike", boundWanted, math.Ceil(n))
	}
}

// stepLines gives the steps lines of the file: those of a usual drive, where one lies
// within the bound and the person takes it, else what was measured.
func (w *Walk) stepLines(f *Found, steps calibrate.Estimate) error {
	d, written := w.drive()
	usual := []calibrate.Usual(nil)
	if !written.Steps {
		usual = calibrate.UsualNear(d, steps)
	}
	if len(usual) > 0 {
		others := ""
		if n := len(usual) - 1; n > 0 {
			others = fmt.Sprintf(" (so would %d others)", n)
		}
		u := usual[0]
		yes, err := w.Ask.yes(question{key: "usual", words: fmt.Sprintf("%s would make %s per %s, which lies within it%s. That is a guess: look at the parts. Take it?",
			u.Words, known(u.Drive.Steps(), 0), w.axis.Unit(), others)})
		if err != nil {
			return err
		}
		if yes {
			f.tell("taken as", "%s: a guess within the bound", u.Words)
			w.driveLines(f, d, u.Drive)
			return nil
		}
	}
	w.measuredLines(f, d, written, steps)
	return nil
}

// driven says how the file writes what drives the axis.
type driven struct{ Steps, Belt, Screw bool }

// drive is what the file says of how the axis is driven.
func (w *Walk) drive() (d calibrate.Drive, how driven) {
	text := func(key string) (string, bool) { return source.Value(w.data, w.path(key)) }
	number := func(key string, otherwise float64) float64 {
		t, ok := text(key)
		if !ok {
			return otherwise
		}
		q, err := unit.Parse(t)
		if err != nil {
			return otherwise
		}
		return q.Float()
	}
	d = calibrate.Drive{
		MotorSteps: number("motor-steps", 200), Microsteps: number("microsteps", 1), Gear: 1,
		Pitch: number("belt.pitch", 0), Teeth: number("belt.teeth", 0), Lead: number("screw.lead", 0), Rotary: w.axis.Kind == rig.Rotary,
	}
	if _, how.Steps = text("steps"); !how.Steps { // the file may say it as 72:2
		d.Gear = w.axis.StepsPerUnit.Float() / d.Steps()
	}
	return d, driven{Steps: how.Steps, Belt: d.Pitch > 0, Screw: d.Lead > 0}
}

// driveLines are those by which one drive becomes another.
func (w *Walk) driveLines(f *Found, was, is calibrate.Drive) {
	for _, k := range []struct {
		key, text string
		was, is   float64
	}{
		{"microsteps", "%s", was.Microsteps, is.Microsteps}, {"belt.pitch", "%s mm", was.Pitch, is.Pitch}, {"belt.teeth", "%s", was.Teeth, is.Teeth},
		{"screw.lead", "%s mm", was.Lead, is.Lead}, {"gear", "%s:1", was.Gear, is.Gear},
	} {
		if k.was != k.is {
			f.line(w.path(k.key), fmt.Sprintf(k.text, known(k.was, 0)), fmt.Sprintf(k.text, known(k.is, 0)))
		}
	}
}

// measuredLines put what was measured where the file says how it is driven: in what its
// belt or screw moves, which is never quite what is printed on it, or in its steps.
func (w *Walk) measuredLines(f *Found, d calibrate.Drive, how driven, steps calibrate.Estimate) {
	now := w.axis.StepsPerUnit.Float()
	k := now / steps.Value
	rel := steps.Sigma / steps.Value
	put := func(key string, was float64, suffix string) {
		f.line(w.path(key), known(was, 0)+suffix, known(was*k, was*rel/fine)+suffix)
	}
	switch {
	case how.Belt:
		put("belt.pitch", d.Pitch, " mm")
	case how.Screw:
		put("screw.lead", d.Lead, " mm")
	case how.Steps && d.Rotary:
		old, _ := source.Value(w.data, w.path("steps"))
		f.line(w.path("steps"), old, known(steps.Value*fullTurn, steps.Sigma*fullTurn/fine)+" per turn")
	case how.Steps:
		old, _ := source.Value(w.data, w.path("steps"))
		f.line(w.path("steps"), old, known(steps.Value, steps.Sigma/fine)+" per mm")
	default:
		old, _ := source.Value(w.data, w.path("gear"))
		f.line(w.path("gear"), old, known(d.Gear/k, d.Gear*rel/fine)+":1")
	}
}

// fine is by how much finer than its uncertainty a value is written, so that rounding adds
// nothing to it.
const fine = 10
