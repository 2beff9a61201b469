package shot

import (
	"errors"
	"fmt"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/move"
	"seamrail/motion/track"
	"seamrail/motion/vibration"
	"seamrail/motion/vibration/spring"
)

// shaped reads whether the move is shaped to leave no after-shake; 0 where it
// goes as its law says.
func shaped(report *source.Report, t source.Text, path string, m move.Move) vibration.Shaper {
	if !t.Set || m == nil {
		return 0
	}
	var names []string
	for _, k := range vibration.Shapers() {
		names = append(names, k.String())
	}
	name, ok := report.Choice(t, path, names...)
	if !ok {
		return 0
	}
	if s, can := m.(move.Shapeable); can {
		if why, fit := s.Shakeless(); why != "" {
			report.Wrong(t, path, "has nothing to cancel: "+why, "leave it out, or "+fit)
		}
	}
	k, _ := vibration.ShaperNamed(name)
	return k
}

// unhurried reports moves that are shaped in a shot whose pace is the rig's:
// going another pace would undo it.
func (raw Raw) unhurried(report *source.Report, s Shot) {
	if !s.Quickest {
		return
	}
	for _, m := range s.Axes {
		if m.Shaped != 0 {
			report.Wrong(raw.Axis[m.Name].Shaped, source.Join("axis", m.Name)+"."+move.ShapedKey, `cannot go with pace = "quickest", which would undo it`, "leave one of the two out")
		}
	}
}

// ErrNoSpring says that a move is to be shaped for an axis that nobody has
// knocked at yet.
var ErrNoSpring = errors.New("shaped needs to know how the axis swings, and its rig does not say; give it there, such as shake = { frequency = \"5.2 Hz\", damping = \"3 %\" }")

// ShapedTrack is Track with the move shaped, where it is to be, so that it
// leaves no swing of s.
//
// Going there and back, or turning, is quickened to end half a swing (zv) or a
// whole one (zvd) sooner and spread over that time again: it takes as long as
// it would have, rests as long, reaches the same ends, and never goes beyond.
// Keys are not quickened: each is passed at its time to within what the spring
// could have followed, and reached in its hold if that lasts as long.
func (m AxisMove) ShapedTrack(period exact.Rat, s spring.Spring) (*track.Track, error) {
	if m.Shaped == 0 {
		return m.Track(period)
	}
	if !s.Known() {
		return nil, ErrNoSpring
	}
	can, ok := m.Does.(move.Shapeable)
	if !ok {
		return nil, fmt.Errorf("the move %q cannot be shaped", m.Kind())
	}
	row := vibration.Impulses(s, m.Shaped)
	lasts := vibration.Lasts(s, m.Shaped)
	t, centre, err := can.Quickened(period, lasts)
	if err != nil {
		return nil, fmt.Errorf("%w; shaped (%s) takes %s s of each way, for a swing of %.4g Hz", err, m.Shaped, lasts.Decimal(3), s.Frequency)
	}
	if centre {
		row = centred(row)
	}
	return track.Shaped(t, row)
}

// centred moves a row of impulses so that on average it comes at its time.
func centred(row []track.Impulse) []track.Impulse {
	var middle exact.Rat
	for _, p := range row {
		middle = middle.Add(p.Delay.Mul(exact.FromFloat(p.Share)))
	}
	out := make([]track.Impulse, len(row))
	for i, p := range row {
		out[i] = track.Impulse{Delay: p.Delay.Sub(middle), Share: p.Share}
	}
	return out
}
