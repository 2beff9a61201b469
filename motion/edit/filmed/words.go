package filmed

import (
	"fmt"
	"math"
	"strings"

	"seamrail/motion/base/clock"
)

// Where says where frame 0 is and by what.
func (f Film) Where() string {
	how := map[By]string{ByPicture: "by the picture", ByTimes: "by the times at which the picture changes", ByMark: "by the sync mark", ByHand: "by hand"}[f.By]
	if how == "" {
		return "where its frame 0 is, is not known"
	}
	return fmt.Sprintf("frame 0 at %.2f ± %s frames, %s", math.Round(f.Zero/shown)*shown+0, sure(f.Sure), how)
}

// sure is an uncertainty to two digits where it is below 1.
func sure(v float64) string {
	if v > 0 && v < 0.005 {
		return "0.005"
	}
	return fmt.Sprintf("%.2g", v)
}

// Words say which frames are kept, of rounds of so many frames each.
func (f Film) Words(all int64) []string {
	out := []string{f.File + ": " + f.Where()}
	if !f.Known() {
		return append(out, "its frames are counted from where the take begins to move")
	}
	kept := fmt.Sprintf("round %d is kept: frames %d to %d, seam at frame %d", f.Round+1, f.In, f.Out-1, f.Out)
	if first := f.Label(f.In); first != "" {
		kept += fmt.Sprintf("; by its timecode %s to %s, seam at %s", first, f.Label(f.Out-1), f.Label(f.Out))
	}
	return append(append(out, kept), f.left(all)...)
}

// left says what whole frames leave over, and what else is to be known.
func (f Film) left(all int64) []string {
	by, side := f.Rounded(all), "late"
	if by < 0 {
		side = "early"
	}
	out := []string{fmt.Sprintf("whole frames are the nearest: the kept round is cut %.2f of a frame %s", math.Abs(by), side)}
	if math.Abs(by) < shown/2 {
		out[0] = "whole frames are the nearest, and the kept round begins on one"
	}
	if math.Abs(f.Longer) >= halfFrame {
		out = append(out, fmt.Sprintf("that round took %+.1f frames beside what is cut out: the seam is open by as much", f.Longer))
	}
	l := f.Loop
	if l.AsGood && l.Unseen {
		out = append(out, "its seam is not seen")
	}
	if l.Frames > 0 && !l.AsGood {
		how := "which is seen too"
		if l.Unseen {
			how = "which is not seen"
		}
		out = append(out, fmt.Sprintf("another loop of it is better: frames %d to %d, the seam of %s", l.From, l.From+l.Frames-1, how))
	}
	if len(f.Hands) > 0 {
		out = append(out, "hands: "+strings.Join(f.Hands, ", "))
	}
	if _, _, err := f.Labels(); err != nil {
		out = append(out, err.Error()+": the edit counts its frames from 0")
	}
	if f.Custom() {
		out = append(out, fmt.Sprintf("its timecode is taken to count %d frames a second: above %d cameras differ in that, so look at the frame too", clock.Timecode{Rate: f.Rate}.Nominal(), fastest))
	}
	if f.Still != "" {
		out = append(out, "the first still that is kept is "+f.Still)
	}
	return out
}

// shown is the least part of a frame that is told.
const shown = 0.01

// halfFrame is what a round must be longer by for its seam to fall on another whole frame.
const halfFrame = 0.5
