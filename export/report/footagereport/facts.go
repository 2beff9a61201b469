package footagereport

import (
	"slices"

	"seamrail/export/report"
	"seamrail/motion/footage/brightness"
	"seamrail/motion/footage/intact"
)

func (d Data) amiss() Amiss {
	var again *Shift
	if d.Repeats != nil {
		again = &Shift{kept.OrNull(d.Repeats.X), kept.OrNull(d.Repeats.Y)}
	}
	from := func(s intact.Span) int { return d.at(s.From) }
	return Amiss{
		Doubled: report.Each(d.Whole.Doubled, func(x intact.Doubled) int { return d.at(x.Frame) }),
		Dropped: report.Each(d.Whole.Dropped, func(x intact.Dropped) Gap { return Gap{d.at(x.Frame), x.Missing} }),
		Cuts:    report.Each(d.Whole.Cuts, d.at), Black: report.Each(d.Whole.Black, from), White: report.Each(d.Whole.White, from),
		Still: d.Whole.AllStill, Repeats: again,
	}
}

func (d Data) lightFacts() *Light {
	if d.Light == nil {
		return nil
	}
	var beat *Beat
	if f := d.Foretold; f != nil {
		beat = &Beat{kept.OrNull(f.Beat), kept.OrNull(f.Depth), slices.ContainsFunc(d.Light.Flicker, f.beats)}
	}
	return &Light{
		Foretold: beat,
		Steps:    report.Each(d.Light.Steps, func(s brightness.Step) Step { return Step{d.at(s.Frame), kept.OrNull(s.Stops)} }),
		Drift:    kept.OrNull(d.Light.Drift),
		Flicker: report.Each(d.Light.Flicker, func(f brightness.Flicker) Flicker {
			out := Flicker{kept.OrNull(f.Frequency), kept.OrNull(f.FrequencyDoubt), kept.OrNull(f.Stops), []string{}}
			for _, l := range f.Lamps {
				if l.Fits {
					out.Lamps = append(out.Lamps, l.Ripple.String())
				}
			}
			return out
		}),
	}
}

func (d Data) again() *Again {
	t := d.Turn
	if t == nil {
		return nil
	}
	out := &Again{Frames: kept.OrNull(t.Repeat), FramesSure: kept.OrNull(t.RepeatDoubt), Faces: t.Faces}
	if t.Told {
		out.Uneven = kept.OrNull(t.Uneven)
		out.Turn, out.TurnSure, out.Hidden = kept.OrNull(t.Period), kept.OrNull(t.PeriodDoubt), kept.OrNull(t.Hidden)
	}
	return out
}

// rateIs is which of the shot's rates the recording has.
func (d Data) rateIs() string {
	switch {
	case d.Rates == nil:
		return ""
	case d.Rates.Capture:
		return "capture"
	case d.Rates.Playback:
		return "playback"
	}
	return "neither"
}
