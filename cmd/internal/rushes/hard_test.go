package rushes_test

import (
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/rushes"
	"seamrail/motion/footage"
	"seamrail/motion/footage/against"
	"seamrail/motion/footage/brightness"
	"seamrail/motion/footage/intact"
)

// How well a pose is known that is laid on one thing, whatever it says of itself: px, as the renderer
// places what it draws to a sixteenth of one, and degrees.
const (
	poseOff = 0.05
	rollOff = 0.05
	// surely is how many uncertainties a frame may be off, with poseOff in them.
	surely = 3
	// layerShare is by how much what a pose lies on may go more or less than the pane or the wall: the
	// flanks lie between.
	layerShare = 0.05
)

// swung is an eased way there and back, from 0 to 1 to 0, between two frames.
func swung(frame, from, to float64) float64 {
	u := math.Min(math.Max((frame-from)/(to-from), 0), 1)
	return (1 - math.Cos(2*math.Pi*u)) / 2
}

// halves is a take in which the lantern fills the left half of the picture and the wall, far behind,
// the right one, while the lens goes by.
func halves(t *testing.T) ordered {
	return drawnBeside(t, "halves", func(frame float64) shift { return shift{x: 20 * swung(frame, 10, 80)} })
}

// rising is the same while the lens goes up.
func rising(t *testing.T) ordered {
	return drawnBeside(t, "rising", func(frame float64) shift { return shift{y: 20 * swung(frame, 10, 80)} })
}

func drawnBeside(t *testing.T, name string, by func(float64) shift) ordered {
	s := in(t, []string{"table"})
	s.look = func([]float64) moment { return moment{X: 45, Y: 60, Z: beside} }
	f := still(90, 0)
	f.shift = by
	return ordered{name, s, f}
}

// beside is how far before the table's axis the lens is there, mm, wall how far behind it is what
// fills the other half.
const beside, wall = 300, -260

// rolled is a take in which the lens is turned about where it looks, while the table turns the
// lantern back and forth a little and the lens goes in.
func rolled(t *testing.T) ordered {
	s := in(t, []string{"table"})
	s.look = func([]float64) moment { return moment{Y: 60, Z: 454} }
	f := still(90, 0)
	f.rolled = func(frame float64) float64 { return mostRoll * swung(frame, 10, 80) }
	return ordered{"rolled", s, f}
}

const mostRoll = 6.0 // degrees

// hard are takes that are looked at for their poses alone.
func hard(t *testing.T) []ordered { return []ordered{halves(t), rising(t), rolled(t)} }

func lookHard(t *testing.T, takes []ordered, films []string, all *table) {
	perMM := high / 2 / math.Tan(takes[0].view/2*math.Pi/180)
	near, far := perMM/(beside-pane), perMM/(beside-wall)
	lookLayer(t, takes[0], films[0], near, far, all)
	lookLayer(t, takes[1], films[1], near, far, all)
	took := lookedAt(t, films[2])
	most, known := 0.0, 0
	for n, f := range took.Course.Frames {
		if f.FromFirst.Known {
			known++
			most = math.Max(most, math.Abs(f.FromFirst.Turn-takes[2].rolled(float64(n)+late(takes[2]))))
		}
	}
	all.count("rolled", "frames that are known", float64(takes[2].frames), float64(known), 0)
	all.count("rolled", "worst turn, degrees", 0, most, rollOff)
}

// late is how many frames after its own time the middle of a frame's exposure is.
func late(o ordered) float64 { return open / 2 * o.plan.CaptureRate.Float() }

// lookLayer is about two depths that go by each other: the pose lies on one of them all along, and
// goes as that one does.
func lookLayer(t *testing.T, o ordered, film string, near, far float64, all *table) {
	took := lookedAt(t, film)
	var ways, goes, sure []float64
	for n, f := range took.Course.Frames {
		if !f.FromFirst.Known {
			continue
		}
		by := o.shift(float64(n) + late(o))
		ways, goes = append(ways, -by.x+by.y), append(goes, f.FromFirst.X+f.FromFirst.Y) // the other way is 0
		sure = append(sure, math.Max(f.FromFirst.Doubt.X, f.FromFirst.Doubt.Y))
	}
	all.count(o.name, "frames that are known", float64(o.frames), float64(len(ways)), 0)
	var wg, ww float64
	for n, w := range ways {
		wg, ww = wg+w*goes[n], ww+w*w
	}
	gain, most := wg/ww, 0.0
	for n, w := range ways {
		most = math.Max(most, math.Abs(goes[n]-gain*w)/math.Hypot(poseOff, sure[n]))
	}
	layer := near
	if math.Abs(gain-far) < math.Abs(gain-near) {
		layer = far
	}
	all.count(o.name, "px a mm, of one depth", layer, gain, layerShare*layer)
	all.count(o.name, "worst frame off that", 0, most, surely)
}

func lookedAt(t *testing.T, film string) *rushes.Take {
	t.Helper()
	took, err := rushes.Look(t.Context(), film, rushes.Options{})
	require.NoError(t, err)
	require.NoError(t, took.Cut)
	return took
}

// lookSpoilt is about what befalls a take whose motion is its plan: whatever is told of it is true.
func lookSpoilt(t *testing.T, o ordered, film, other string, all *table) {
	const from, to, cut = 100, 103, 150
	for name, b := range map[string]spoiling{
		"dark":         {grain: 2, gain: 0.53}, // two stops: 0.25 by a power of 1/2.2
		"low contrast": {grain: 2, contrast: 0.15},
		"blown out":    {grain: 2, gain: 1.7},
		"a sky":        {grain: 2, sky: 0.3},
	} {
		took, r := laid(t, b.spoilt(t, film), o.plan)
		t.Log(name+":", r.Verdict.Text)
		all.honest(name, o, r)
		all.yes(name, "no frame is missing", intact.Check(took.Course.Frames, high/2).Doubled == nil)
	}
	took, r := laid(t, spoiling{grain: 2, black: [2]int{from, to}}.spoilt(t, film), o.plan)
	t.Log("black frames:", r.Verdict.Text)
	all.honest("black frames", o, r)
	whole := intact.Check(took.Course.Frames, high/2)
	all.one("black frames", "the first", from, len(whole.Black), func() float64 { return float64(whole.Black[0].From) }, 0)
	all.one("black frames", "the last", to, len(whole.Black), func() float64 { return float64(whole.Black[0].To) }, 0)
	all.yes("black frames", "their poses are not known", !anyKnown(took.Course.Frames[from:to+1]))
	took = lookedAt(t, spoiling{grain: 2, cut: cut, after: other}.spoilt(t, film))
	whole = intact.Check(took.Course.Frames, high/2)
	all.one("a cut", "its frame", cut, len(whole.Cuts), func() float64 { return float64(whole.Cuts[0]) }, 0)
	all.yes("a cut", "beyond it is not known", !anyKnown(took.Course.Frames[cut:]))
}

// honest adds what holds of a take that is its plan, whatever spoils it: it is the plan, or nobody
// knows, and what is told of it is true.
func (t *table) honest(name string, o ordered, r against.Result) {
	t.yes(name, "is not called another", r.Verdict.Kind != against.Differs)
	if r.Verdict.Kind == against.IsPlan {
		t.add(name, "frame 0", o.zero, r.Frame0.Number, frame0Clean)
		t.add(name, "px a mm", o.px, r.Axes[0].PxPerUnit, scaleShare*o.px)
	}
}

func anyKnown(frames []footage.Frame) bool {
	for _, f := range frames {
		if f.FromFirst.Known {
			return true
		}
	}
	return false
}

// lookStill is about a camera before which nothing moves, as it is and encoded.
func lookStill(t *testing.T, o ordered, film string, all *table) {
	raw := spoiling{grain: 3, held: true}.spoilt(t, film)
	films := map[string]string{"still": raw}
	if os.Getenv(encodedVariable) != "" {
		for _, e := range encodings {
			films["still, "+e.name] = encoded(t, raw, e)
		}
	}
	for name, film := range films {
		took := decoded(t, film)
		whole := intact.Check(took.Course.Frames, high/2)
		all.yes(name, "no frame is called doubled", len(whole.Doubled) == 0)
		all.yes(name, "none is called lost", len(whole.Dropped)+len(whole.Cuts) == 0)
		light, err := brightness.Measure(brightness.Question{Means: took.Sketches.Means, Rate: o.plan.CaptureRate})
		require.NoError(t, err)
		all.yes(name, "no step of the exposure", len(light.Steps) == 0)
		r, err := against.Lay(took.Course, o.plan)
		require.NoError(t, err)
		t.Log(name+":", r.Verdict.Text)
		all.yes(name, "is not called the plan", r.Verdict.Kind != against.IsPlan)
	}
}
