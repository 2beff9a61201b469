package syncmark

import (
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/spec/shot"
)

// What clocks are off by, as shares, where nobody has measured them: a quartz, as cameras
// and computers have, and the ceramic resonator of many boards (common practice, and what
// their makers state).
const (
	Quartz    = 50e-6
	Resonator = 5e-3
)

// How far the time from the mark to the beginning of the motion may be out by what
// controllers do, s, besides their clocks: one that plays rows keeps to its tick; one that
// reads ahead is at the first move a few ms after it has read that; one that waits for an
// answer to each line is late by what the host's serial adapter holds back, up to 16 ms
// (its usual timer), for each of the five lines between.
const (
	rowDoubt     = 0.002
	aheadDoubt   = 0.005
	replyDoubt   = 0.016
	linesBetween = 5
	// handDoubt is how far a hand is out that was counted to a beat: most beats are met
	// within a twentieth of a second (common practice).
	handDoubt = 0.1
)

// Doubt is what is left open of where frame 0 is, each either way, in captured frames but
// for the shares.
type Doubt struct {
	Phase  float64 // the camera's clock does not run with the rig's
	Means  float64 // what makes the mark: how late it is, the controller, a hand
	Clocks float64 // both clocks between the mark and frame 0
	Rig    float64 // the rig's clock, as a share
	Camera float64 // the camera's
}

// Frames is all of it together.
func (d Doubt) Frames() float64 { return d.Phase + d.Means + d.Clocks }

// Doubt tells what is left open, of a take that nothing more is known of.
func (m *Mark) Doubt() Doubt {
	f := m.plan.Loop.Clock.Capture.Float()
	d := Doubt{Phase: halfFrame, Camera: Quartz, Rig: m.rigClock()}
	if m.shows() && !m.Share.Given {
		d.Phase = wholeFrame
	}
	d.Means = f*(m.board()+m.unsure()) + m.press()
	d.Clocks = f * m.At().Neg().Float() * (d.Rig + d.Camera)
	return d
}

// A mark that is seen falls somewhere within a frame, or where it is not known for how
// much of it the shutter is open, within that or before it.
const halfFrame, wholeFrame = 0.5, 1.0

// press is how many captured frames a rig that is started by hand may set out from where
// it was counted to.
func (m *Mark) press() float64 {
	if m.plan.Set == nil {
		return 0
	}
	return m.plan.StartSpread()
}

// shows tells whether the mark is looked for in the picture, and not heard.
func (m *Mark) shows() bool {
	return m.By == ByTwitch || m.By == ByHand || m.By == ByOutput && !m.starts()
}

func (m *Mark) board() float64 {
	switch k := m.plan.Rig.Controller.Kind; {
	case m.By == ByClick || m.By == ByHand:
		return 0
	case k.PlaysSteps():
		return rowDoubt
	case k.OneByOne():
		return replyDoubt * linesBetween
	}
	return aheadDoubt
}

func (m *Mark) unsure() float64 {
	if m.By == ByClick {
		return m.byEar()
	}
	return m.lateDoubt()
}

// lateDoubt is how far what is seen of a mark may be from the rig's time of it, s, besides
// what it is usually late by.
func (m *Mark) lateDoubt() float64 {
	switch m.By {
	case ByOutput:
		return m.Output.Unsure
	case ByHand:
		return handDoubt
	case ByTwitch:
		return m.Late.Float() // it may be seen sooner
	}
	return 0
}

// anewDoubt is what of that differs from one mark to the next: a hand is late as it comes.
func (m *Mark) anewDoubt() float64 {
	if m.By == ByHand {
		return handDoubt
	}
	return 0
}

// byEar is how far a click track that somebody starts at the press of a button is from the
// motion, s: a finger on each.
func (m *Mark) byEar() float64 { return handDoubt }

// rigClock is by what share of itself the controller's time may be another. A rate error
// of 0 is one that nobody has measured.
func (m *Mark) rigClock() float64 {
	if m.plan.Rig.Controller.RateError == 0 {
		return Resonator
	}
	return Quartz
}

// offset is where, on average, frame 0 begins after the frame in which the mark is first
// seen or heard, beyond what lies between mark and frame 0: in the middle of where a mark can
// fall that only an exposure shows, or of the frame in which a tone begins.
func (m *Mark) offset() float64 {
	switch {
	case m.starts(): // the first frame begins when the camera is ready for one
		return -halfFrame
	case !m.shows():
		return halfFrame
	case !m.Share.Given:
		return 0
	}
	return m.Share.Value - halfFrame
}

// From is how many captured frames frame 0 begins after the first frame of the mark.
func (m *Mark) From() float64 { return m.Frame().Neg().Float() + m.offset() }

// Count is From to the nearest whole frame: what is counted in the recording.
func (m *Mark) Count() int64 { return int64(math.Round(m.From())) }

// Kept is the frame of a recording, counted from the first of the mark, at which the round
// begins that is kept of so many, and how far that may be out.
func (m *Mark) Kept(rounds int64) (frame int64, out float64) {
	d := m.Doubt()
	lies := exact.Int(shot.KeptRound(rounds)).Mul(m.plan.Round())
	more := lies.Mul(m.plan.Loop.Clock.Capture).Float()
	return int64(math.Round(m.From() + more)), d.Frames() + more*(d.Rig+d.Camera)
}

// Opens is by how many px the clocks may open the seam, NaN where the picture does not
// tell: a loop of whole frames that the rig went through in another time.
func (m *Mark) Opens() float64 {
	if !m.Picture {
		return math.NaN()
	}
	d := m.Doubt()
	return m.Shows.Seam * float64(m.plan.Loop.Captured) * (d.Rig + d.Camera)
}
