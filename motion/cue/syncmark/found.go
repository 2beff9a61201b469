package syncmark

import (
	"fmt"
	"math"

	"seamrail/motion/spec/shot"
)

// Made is what the log of takes tells of the marks of a take that was run: when each was
// made, on the clock of the computer that drove it, and where they were seen.
type Made struct {
	First, Out        float64 // s from frame 0 to the first, and how far that may be out
	Second, SecondOut float64 // 0 where there was none
	Stretch           float64 // executed over planned motion; 0 = not measured
	StretchOut        float64 // how far that may be out
	Saw               bool
	Frame, Last       int64 // frames of the recording; Last is 0 where the second was not seen
}

// Found is where the frames of a take are in its recording.
type Found struct {
	Seen  bool    // frames are counted as the recording is; else from the first of the mark
	First int64   // in which the mark was first seen, 0 where it was not
	Last  int64   // and the second; 0 where it was not
	Frame float64 // at which frame 0 begins
	Out   float64 // how far that may be out either way, frames
	Kept  int64   // at which the round begins that is kept
	By    float64 // and how far that may be out

	Rate    float64 // captured frames a second of the computer's clock
	RateOut float64 // how far that may be out
	Told    bool    // two marks have told it; else it is the camera's own word
	Lasts   float64 // captured frames of a round
	Opens   float64 // px that the seam is open by for it; NaN where the picture does not tell
}

// In finds the frames of a take of so many rounds.
func (m *Mark) In(k Made, rounds int64) Found {
	d, stated := m.Doubt(), m.plan.Loop.Clock.Capture.Float()
	f := Found{Seen: k.Saw, First: k.Frame, Last: k.Last, Rate: stated, RateOut: stated * d.Camera, Opens: math.NaN()}
	if k.Saw && k.Last > k.Frame && k.Second > k.First {
		m.between(&f, k, d.Phase)
	}
	lies := -(k.First + m.Late.Float())
	f.Frame = float64(k.Frame) + m.offset() + lies*f.Rate
	f.Out = d.Phase + f.Rate*(k.Out+m.lateDoubt()+lies*Quartz) + lies*f.RateOut
	round, clock := m.plan.Period(), d.Rig
	if k.Stretch > 0 { // by the computer's clock
		round, clock = round*k.Stretch, Quartz+k.StretchOut/k.Stretch
	}
	f.Lasts = round * f.Rate
	kept := float64(shot.KeptRound(rounds)) * round
	f.Kept, f.By = int64(math.Round(f.Frame+kept*f.Rate)), f.Out+kept*(f.RateOut+f.Rate*clock)
	if m.Picture {
		f.Opens = m.Shows.Seam * math.Abs(f.Lasts-float64(m.plan.RoundFrames()))
	}
	return f
}

// between finds the camera's rate by two marks: as late as the other is either, but for a
// hand, so that what is left is a phase at each end and how far the times are out. Where the
// camera's own word fits that, it is surer.
func (m *Mark) between(f *Found, k Made, phase float64) {
	n, t := float64(k.Last-k.Frame), k.Second-k.First
	rate := n / t
	out := rate * (2*phase/n + (k.Out+k.SecondOut+2*m.anewDoubt())/t + Quartz)
	f.Told = math.Abs(rate-f.Rate) > out+f.RateOut
	if f.Told || out < f.RateOut {
		f.Rate, f.RateOut = rate, out
	}
}

// Words tell what was found.
func (f Found) Words(m *Mark) []string {
	from := "after " + m.First()
	if f.Seen {
		from = "of the recording"
	}
	out := []string{fmt.Sprintf("frame 0 begins at frame %.1f %s, give or take %.1f; the kept round at frame %d, give or take %.1f", f.Frame, from, f.Out, f.Kept, f.By)}
	if f.Told {
		stated := m.plan.Loop.Clock.Capture.Float()
		out = append(out, fmt.Sprintf("by the two marks the camera takes %.3f frames/s, give or take %.3f: %+.0f ppm of the %.3f stated", f.Rate, f.RateOut, (f.Rate/stated-1)*1e6, stated))
	}
	seam := fmt.Sprintf("a round takes %.3f of its frames where %d are cut out", f.Lasts, m.plan.RoundFrames())
	if !math.IsNaN(f.Opens) {
		seam += fmt.Sprintf(", which opens the seam by %.2f px", f.Opens)
	}
	return append(out, seam)
}

// AsPlanned is what is known of a take that nobody has run yet.
func (m *Mark) AsPlanned() Made {
	d := m.Doubt()
	k := Made{First: m.At().Float(), Out: d.Means / m.plan.Loop.Clock.Capture.Float()}
	k.Out += m.At().Neg().Float()*d.Rig - m.lateDoubt()
	if m.After.Sign() > 0 {
		k.Second = m.secondAt(int64(m.plan.Rounds)).Float()
	}
	return k
}
