package footagereport

import (
	"fmt"
	"math"

	"seamrail/export/report"
	"seamrail/motion/base/clock"
	"seamrail/motion/base/plain"
	"seamrail/motion/footage/intact"
	"seamrail/motion/footage/repeats"
)

// rate tells the recording's rate beside those of the shot.
func (d Data) rate(r *report.Report) {
	a := d.Course.About.Rate
	if a.Sign() <= 0 {
		r.Toned(report.Fair, "rate", "it does not say; frames are counted as they come")
		return
	}
	text := clock.RateText(a) + " frames/s"
	c := d.Rates
	switch {
	case c == nil:
		r.Field("rate", text+", as it says itself")
	case c.Capture && c.Playback:
		r.Field("rate", text+", at which the shot is captured and played")
	case c.Capture:
		r.Field("rate", text+", at which the shot is captured")
	case c.Playback:
		r.Field("rate", text+", at which the shot is played: each captured frame is one of it")
	default:
		r.Toned(report.Poor, "rate", fmt.Sprintf("%s, and the shot has no such rate; the nearest is %s, from which it is %s frames off at the end%s",
			text, clock.RateText(c.Nearest), c.Drift.Abs().Decimal(2), kinWords(*c)))
	}
}

func kinWords(c intact.Rates) string {
	switch {
	case c.Kin:
		return ": one of the two is by a thousandth from the other, as 24 from 23.976"
	case c.Times.Sign() > 0:
		return fmt.Sprintf(": it is %s times that", c.Times)
	}
	return ""
}

// whole tells what is amiss with the frames themselves.
func (d Data) whole(r *report.Report) {
	w := d.Whole
	for _, x := range w.Doubled {
		r.Bullets(report.Poor, "!", fmt.Sprintf("frame %d shows the one before again", d.at(x.Frame)))
	}
	if w.Unclear > 0 {
		look := "a frame looks"
		if w.Unclear > 1 {
			look = fmt.Sprintf("%d frames look", w.Unclear)
		}
		r.Bullets(report.Fair, "~", look+" as the one before while next to nothing moves: an encoder leaves out what little changes, so whether any is there twice cannot be known")
	}
	if w.Every > 0 {
		r.Bullets(report.Poor, "!", fmt.Sprintf("each %d. frame is there twice: it was filmed at another rate", w.Every))
	}
	for _, x := range w.Dropped {
		how := ""
		if x.Filled {
			how = ", and the frame before shown twice in place of one"
		}
		r.Bullets(report.Poor, "!", fmt.Sprintf("before frame %d %s lost%s", d.at(x.Frame), isOrAre(x.Missing), how))
	}
	for _, x := range w.Cuts {
		r.Bullets(report.Poor, "!", fmt.Sprintf("there is a cut before frame %d", d.at(x)))
	}
	d.spans(r, w.Black, "black")
	d.spans(r, w.White, "white")
	if again := d.Repeats; again != nil {
		r.Bullets(report.Fair, "?", fmt.Sprintf("the picture repeats itself by some %s px%s, as a wallpaper does: where it went by as much at once there are several matches, and the nearest is taken", report.Digits(math.Hypot(again.X, again.Y), 3), way(*again)))
	}
	switch {
	case w.AllStill:
		r.Bullets(report.Fair, "~", "nothing in it moves")
	case w.CameraStill:
		r.Bullets(report.Plain, "·", "all frames lie on the first: what moves, moves in the picture")
	}
}

func isOrAre(n int) string {
	if n == 1 {
		return "a frame is"
	}
	return fmt.Sprintf("%d frames are", n)
}

func (d Data) spans(r *report.Report, list []intact.Span, what string) {
	for _, s := range list {
		of := fmt.Sprintf("frame %d is", d.at(s.From))
		if s.To > s.From {
			of = fmt.Sprintf("frames %d to %d are", d.at(s.From), d.at(s.To))
		}
		r.Bullets(report.Poor, "!", of+" "+what+", wholly or far more than others")
	}
}

// light tells what the light did.
func (d Data) light(r *report.Report) {
	l := d.Light
	if l == nil {
		return
	}
	r.Named("light", "THE LIGHT")
	for _, s := range l.Steps {
		word := "brighter"
		if s.Stops < 0 {
			word = "darker"
		}
		r.Toned(report.Fair, "a step", fmt.Sprintf("%s stops %s from frame %d on", measured(abs(s.Stops), s.Doubt), word, d.at(s.Frame)))
	}
	d.flicker(r)
	d.foretold(r)
	r.Field("drift", measured(l.Drift, l.DriftDoubt)+" stops a minute")
	r.Bullets(report.Dim, " ", "Stops are those of an encoding by the power 1/2.2, which is assumed of the camera.")
}

// flicker tells of lamps that beat, and of what comes and goes as no lamp does: what moves in the
// picture does that too.
func (d Data) flicker(r *report.Report) {
	lamps, other := 0, false
	for _, f := range d.Light.Flicker {
		fits := lampWords(f.Lamps)
		text := fmt.Sprintf("%s Hz as it was filmed, by %s stops, %s %% of the light",
			measured(f.Frequency, f.FrequencyDoubt), report.Digits(f.Stops, 2), report.Digits(f.Percent, 2))
		switch {
		case fits != "":
			lamps++
			r.Toned(report.Fair, "flicker", text+fits)
		case !other:
			other = true
			r.Field("varies", text+"; no lamp on the mains beats so, but what moves in the picture may")
		}
	}
	if lamps == 0 {
		r.Field("flicker", "none of a lamp that is more than noise")
	}
}

func abs(v float64) float64 { return max(v, -v) }

// comesAgain tells after how long the picture is the same again.
func (d Data) comesAgain(r *report.Report) {
	t := d.Turn
	if t == nil {
		return
	}
	r.Named("again", "WHAT COMES AGAIN")
	r.Field("the picture", fmt.Sprintf("after %s frames", measured(t.Repeat, t.RepeatDoubt)))
	if t.Told {
		r.Field("a turn", fmt.Sprintf("%s frames, %s s, if it is a thing that turns: %s that look alike", measured(t.Frames, t.FramesDoubt), measured(t.Period, t.PeriodDoubt), plain.Count(int64(t.Faces), "face")))
		r.Field("", fmt.Sprintf("rig file: period = \"%s s\", uncertainty = \"%s s\"", report.Digits(t.Period, 7), report.Digits(t.PeriodDoubt, 2)))
		if t.Turns > 1 && t.Uneven > 0 {
			r.Field("its speed", fmt.Sprintf("within %s degrees, root mean square, of a steady turn over %s turns, as far as the picture tells", report.Digits(t.Uneven, 2), report.Digits(t.Turns, 3)))
		}
		d.hidden(r)
	} else {
		r.Bullets(report.Dim, " ", "Whether that is a whole turn, or one face of several, nothing in the picture tells; --faces says.")
	}
}

// hidden tells by how much faces may differ that were taken to be alike: then a turn is longer.
func (d Data) hidden(r *report.Report) {
	switch h := d.Turn.Hidden; {
	case h >= 1:
		r.Bullets(report.Dim, " ", "The footage has no two such turns: whether they are alike it does not tell.")
	case h > 0:
		r.Bullets(report.Dim, " ", fmt.Sprintf("Turns that differ by less than %s %% of what any two frames differ by would not be told: if they do, a turn is several of these.", report.Digits(100*h, 2)))
	}
}

// way is in which direction a picture repeats itself.
func way(r repeats.Repeat) string {
	const flat = 0.2 // of one to the other: nobody calls that a slope
	switch {
	case math.Abs(r.Y) <= flat*math.Abs(r.X):
		return " across"
	case math.Abs(r.X) <= flat*math.Abs(r.Y):
		return " down"
	}
	return " aslant"
}
