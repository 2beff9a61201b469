package rushes_test

import (
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/rushes"
	"seamrail/motion/base/exact"
	"seamrail/motion/footage/against"
	"seamrail/motion/footage/alike"
	"seamrail/motion/footage/brightness"
	"seamrail/motion/footage/intact"
	"seamrail/motion/footage/turn"
)

// By how much what is found may be off: on clean takes, and on bad ones.
const (
	frame0Clean, frame0Bad = 0.2, 0.5   // frames
	periodClean, periodBad = 1e-4, 1e-3 // as a share
	lateClean              = 0.2        // frames, as frame 0
	swingShare             = 0.05       // of frequency, damping and amplitude
	scaleShare             = 0.02       // of px a mm: the flanks of the lantern are farther and show less
	blowOff                = 1          // frames
	hertzOff               = 0.05       // Hz, of flicker: two seconds tell half a hertz, and its phase a tenth of that
)

// What a renderer that is not ours made of motions that are known is looked through and laid on
// its plan, and told as it is true.
func TestRendered(t *testing.T) {
	takes := []ordered{clean(t), blurred(t), slow(t), shaken(t), blown(t), inward(t), both(t), turning(t)}
	film := render(t, append(takes, hard(t)...)...)
	var all table
	for n, look := range []func(*testing.T, ordered, string, *table){
		lookClean, lookBlurred, lookSlow, lookShaken, lookBlown, lookInward, lookBoth, lookTurning,
	} {
		look(t, takes[n], film[n], &all)
	}
	lookHard(t, hard(t), film[len(takes):], &all)
	lookSpoilt(t, takes[0], film[0], film[len(takes)-1], &all)
	lookStill(t, takes[0], film[0], &all)
	all.hold(t, pending())
}

// pending are rows that do not hold yet, and what they wait for.
func pending() map[string]string {
	return map[string]string{
		"halves: frames that are known":  "one frame by itself is laid on the wall, where too little is found of what the others lie on: it is told as not known",
		"push-in: is the plan":           "how much a picture grows is known less well than where it goes: to 0.55 px, where 0.5 is needed",
		"push-in: lateness of the round": "for the same reason it is known to 0.2 of a frame, which is the bound, and is off by 0.33",
	}
}

// lookClean is about a take of the macro shot without blur: as it is, beside other plans, with
// grain, in a light that flickers, and encoded.
func lookClean(t *testing.T, o ordered, film string, all *table) {
	took := all.once(t, "clean", o, film)
	for what, other := range map[string]set{
		"another law":  along(t, "law", "cycloidal"),
		"less far":     along(t, "to", "29 mm"),
		"a short loop": along(t, "clock.loop", "7.5 s"),
	} {
		r, err := against.Lay(took.Course, other.plan)
		require.NoError(t, err)
		t.Log("clean against", what+":", r.Verdict.Text)
		all.yes("clean, "+what, "is not the plan", r.Verdict.Kind == against.Differs)
	}
	took = all.once(t, "grain", o, spoiling{grain: 6}.spoilt(t, film))
	all.yes("grain", "no frame is missing", intact.Check(took.Course.Frames, high/2).Whole())
	lookLit(t, o, film, all)
	lookEncoded(t, o, film, all)
}

// once is about a take of one round that is its plan.
func (all *table) once(t *testing.T, name string, o ordered, film string) *rushes.Take {
	t.Helper()
	took, r := laid(t, film, o.plan)
	t.Log(name+":", r.Verdict.Text)
	all.add(name, "frame 0", o.zero, r.Frame0.Number, frame0Clean)
	all.add(name, "lateness of the round", 0, r.Rounds[0].Late, lateClean)
	if o.px > 0 {
		all.add(name, "px a mm", o.px, r.Axes[0].PxPerUnit, scaleShare*o.px)
	}
	all.yes(name, "is the plan", r.Verdict.Kind == against.IsPlan)
	return took
}

// lookLit is about light that flickers at twice the mains, and a step of the exposure.
func lookLit(t *testing.T, o ordered, film string, all *table) {
	const step, hertz = 80, 100.0
	rate := o.plan.CaptureRate
	lit := spoiling{grain: 4, flicker: 0.04, beat: hertz / rate.Float(), step: 1.15, stepAt: step}
	took, r := laid(t, lit.spoilt(t, film), o.plan)
	t.Log("light:", r.Verdict.Text)
	all.add("light", "frame 0", o.zero, r.Frame0.Number, frame0Clean)
	light, err := brightness.Measure(brightness.Question{Means: took.Sketches.Means, Rate: rate})
	require.NoError(t, err)
	t.Logf("light: steps %+v, flicker %+v", light.Steps, light.Flicker)
	all.one("light", "step of exposure, frame", step, len(light.Steps), func() float64 { return float64(light.Steps[0].Frame) }, 0)
	all.yes("light", "flickers", len(light.Flicker) > 0)
	if len(light.Flicker) > 0 {
		f := light.Flicker[0]
		all.add("light", "flicker as filmed, Hz", rate.Float()-hertz, against.Number{Value: f.Frequency, Sure: f.FrequencyDoubt}, hertzOff)
		all.yes("light", "its lamp is told", f.Lamps[0].Fits && f.Lamps[0].Ripple.Equal(exact.Int(hertz)))
	}
}

// lookBlurred is about all at once that makes a take bad: blur, a shutter that rolls, a hand that
// goes through the picture, grain, flicker, a frame lost and one doubled.
func lookBlurred(t *testing.T, o ordered, film string, all *table) {
	const lost, twice = 90, 60
	bad := spoiling{grain: 8, flicker: 0.04, beat: 100 / o.plan.CaptureRate.Float(), lost: []int{lost}, twice: []int{twice}}
	took, r := laid(t, bad.spoilt(t, film), o.plan)
	t.Log("bad:", r.Verdict.Text)
	all.add("bad", "frame 0", o.zero, r.Frame0.Number, frame0Bad)
	all.add("bad", "px a mm", o.px, r.Axes[0].PxPerUnit, scaleShare*o.px)
	whole := intact.Check(took.Course.Frames, high/2)
	t.Logf("bad: doubled %+v, dropped %+v, cuts %v", whole.Doubled, whole.Dropped, whole.Cuts)
	all.one("bad", "frame doubled", twice+1, len(whole.Doubled), func() float64 { return float64(whole.Doubled[0].Frame) }, 0)
	var gaps, filled []intact.Dropped // what is twice is there in place of one that is lost
	for _, d := range whole.Dropped {
		if d.Filled {
			filled = append(filled, d)
		} else {
			gaps = append(gaps, d)
		}
	}
	all.one("bad", "first after one lost", lost, len(gaps), func() float64 { return float64(gaps[0].Frame) }, 0)
	all.one("bad", "first after one filled", twice+2, len(filled), func() float64 { return float64(filled[0].Frame) }, 0)
	bad.lost, bad.twice = nil, nil
	_, r = laid(t, bad.spoilt(t, film), o.plan)
	t.Log("bad, whole:", r.Verdict.Text)
	all.add("bad, whole", "frame 0", o.zero, r.Frame0.Number, frame0Bad)
	all.add("bad, whole", "lateness of the round", 0, r.Rounds[0].Late, frame0Bad)
	all.add("bad, whole", "px a mm", o.px, r.Axes[0].PxPerUnit, scaleShare*o.px)
}

// lookSlow is about two rounds of which the second takes longer.
func lookSlow(t *testing.T, o ordered, film string, all *table) {
	_, r := laid(t, film, o.plan)
	t.Log("slow round:", r.Verdict.Text)
	all.add("slow round", "frame 0", o.zero, r.Frame0.Number, frame0Clean)
	for n, late := range []float64{0, slower} {
		all.add("slow round", fmt.Sprintf("lateness of round %d", n+1), late, r.Rounds[n].Late, lateClean)
	}
	all.yes("slow round", "is not the plan", r.Verdict.Kind == against.Differs)
}

// lookShaken is about a carriage that swings after each move.
func lookShaken(t *testing.T, o ordered, film string, all *table) {
	_, r := laid(t, film, o.plan)
	t.Log("after-shake:", r.Verdict.Text)
	all.add("after-shake", "frame 0", o.zero, r.Frame0.Number, frame0Clean)
	all.yes("after-shake", "is found", r.Shake != nil)
	if r.Shake == nil {
		return
	}
	most := o.px * shake.amplitude
	all.add("after-shake", "frequency, Hz", shake.hertz, against.Number{Value: r.Shake.Spring.Frequency, Sure: r.Shake.FrequencySure}, swingShare*shake.hertz)
	all.add("after-shake", "damping", shake.damping, against.Number{Value: r.Shake.Spring.Damping, Sure: r.Shake.DampingSure}, swingShare*shake.damping)
	all.add("after-shake", "amplitude, px", most, r.Shake.Amplitude, swingShare*most)
}

// lookBlown is about a blow to the table in the middle of a move.
func lookBlown(t *testing.T, o ordered, film string, all *table) {
	_, r := laid(t, film, o.plan)
	t.Logf("blow: %+v %s", r.Blows, r.Verdict.Text)
	all.add("blow", "frame 0", o.zero, r.Frame0.Number, frame0Clean)
	all.one("blow", "frame of the blow", o.zero+blow, len(r.Blows), func() float64 { return r.Blows[0].Frame }, blowOff)
	all.yes("blow", "is not the plan", r.Verdict.Kind == against.Differs)
}

func lookInward(t *testing.T, o ordered, film string, all *table) {
	all.once(t, "push-in", o, film)
}

// lookBoth is about a lens that goes in while the table turns the lantern.
func lookBoth(t *testing.T, o ordered, film string, all *table) {
	took, r := laid(t, film, o.plan)
	t.Log("rail and table:", r.Verdict.Text)
	all.add("rail and table", "frame 0", o.zero, r.Frame0.Number, frame0Clean)
	all.yes("rail and table", "is the plan", r.Verdict.Kind == against.IsPlan)
	all.count("rail and table", "best loop, frames", float64(o.plan.Loop), float64(best(t, took, 100, 200).Length), 0)
}

// lookTurning is about a display stand that nobody timed, the camera at rest.
func lookTurning(t *testing.T, _ ordered, film string, all *table) {
	for _, take := range []struct {
		name string
		spoiling
		bar float64
	}{
		{"stand", spoiling{}, periodClean},
		// The best loop is the one whose light goes on too: it flickers as often as the loop comes round.
		{"stand, bad", spoiling{grain: 8, flicker: 0.04, beat: 47.0 / nearest}, periodBad},
	} {
		took, err := rushes.Look(context.Background(), take.spoilt(t, film), rushes.Options{})
		require.NoError(t, err)
		found, err := turn.Measure(context.Background(), took.Sketches, turn.Question{Rate: exact.Int(standRate), Faces: 6})
		require.NoError(t, err)
		all.add(take.name, "period, s", standPeriod, against.Number{Value: found.Period, Sure: found.PeriodDoubt}, take.bar*standPeriod)
		all.count(take.name, "best loop, frames", nearest, float64(best(t, took, 100, 200).Length), 0)
	}
}

// nearest is the whole number of frames nearest to a turn of the stand, 152.88; no pane is quite like
// another.
const nearest = 153

// best is the best loop of a take between two lengths.
func best(t *testing.T, took *rushes.Take, least, most int) alike.Run {
	t.Helper()
	found, err := alike.Best(context.Background(), took.Sketches, alike.Range{Min: least, Max: most, Apart: 6})
	require.NoError(t, err)
	require.NotEmpty(t, found.Runs)
	return found.Runs[0]
}
