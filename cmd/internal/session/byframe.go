package session

import (
	"fmt"
	"strings"

	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/job"
	"seamrail/export/drive"
	"seamrail/export/report/planreport"
	"seamrail/motion/base/plain"
)

// ends refuses a take without end where each frame is taken once.
func (o Options) ends(j *job.Job) error {
	if f := j.Schedule; f != nil && o.Endless {
		return exit.Misused("a take frame by frame ends with its last frame, and this one has %d: leave out that it goes on until stopped; take.rounds in the shot says how often all are taken", f.Frames())
	}
	return nil
}

// byFrame sets what the options have of a shot that is taken frame by frame.
func (s *session) byFrame(o *drive.Options) {
	o.Frames, o.FromFrame = s.job.Schedule, s.from
	if o.Frames == nil {
		return
	}
	if out, wired := s.job.Rig.Output(o.Frames.ByFrame().Output); wired {
		o.Outputs = append(o.Outputs, out)
	}
	o.Call = func(b drive.Beat) { s.Call(b) }
	if s.called != nil {
		o.Call = s.called
	}
}

// firstFrame is the frame that the first take begins with: the one that was asked for, or
// the one that the last take has not come to.
func (s *session) firstFrame() (int64, error) {
	f := s.job.Schedule
	switch {
	case f == nil && (s.o.GoOn || s.o.FromFrame > 0):
		return 0, exit.Misused("the shot is not taken frame by frame: a take of it begins at its beginning")
	case f == nil:
		return 0, nil
	case s.o.GoOn:
		return s.unfinished()
	case s.o.FromFrame < 0 || s.o.FromFrame >= f.Frames():
		return 0, exit.Misused("--from-frame %d: a take of the shot has frames 0 to %d", s.o.FromFrame, f.Frames()-1)
	}
	return s.o.FromFrame, nil
}

// unfinished is the frame that the last take has not come to.
func (s *session) unfinished() (int64, error) {
	const begins = "; --from-frame N begins with a frame of your choice"
	t, any := s.before.LastTake(s.o.Virtual)
	switch frames := s.job.Schedule.Frames(); {
	case !any:
		return 0, exit.Misused("there is no take to go on with in the log")
	case t.Begin.Plan != s.job.Plan.Hash():
		return 0, exit.Misused("take %d was of plan %s, and the shot is plan %s now: its frames are elsewhere%s", t.Number, t.Begin.Plan, s.job.Plan.Hash(), begins)
	case t.Frames >= frames:
		return 0, exit.Misused("take %d has all its %s%s", t.Number, plain.Count(frames, "frame"), begins)
	}
	return t.Frames, nil
}

// leftOff says of the last take how far it has come, where it could be gone on with.
func (s *session) leftOff() string {
	t, any := s.before.LastTake(s.o.Virtual)
	f := s.job.Schedule
	if f == nil || !any || t.Frames == 0 || t.Frames >= f.Frames() || t.Begin.Plan != s.job.Plan.Hash() {
		return ""
	}
	return fmt.Sprintf("Take %d ended after frame %d, with %d of its %s. --go-on goes on with frame %d; the camera may hold that one already, exposed and not noted any more.\n",
		t.Number, t.Frames-1, t.Frames, plain.Count(f.Frames(), "frame"), t.Frames)
}

// framesHead says before a run how the frames are taken and how long that is.
func (s *session) framesHead() string {
	f := s.job.Schedule
	if f == nil {
		return ""
	}
	text := "Frame by frame: " + planreport.FramesPace(f) + ".\n"
	if s.from > 0 {
		text += s.goesOn()
	}
	return text
}

// goesOn says what to see to before a take is gone on with: its frames have to meet.
func (s *session) goesOn() string {
	text := fmt.Sprintf("It goes on with frame %d of the take; where the rig stands must be known anew: home it, or bring it to frame 0.\n", s.from)
	var blind []string
	for _, a := range s.job.Plan.Axes {
		if s.job.Rig.Controller.HomeLineOf(a.Rig) == "" {
			blind = append(blind, a.Rig.Name)
		}
	}
	if len(blind) > 0 {
		text += fmt.Sprintf("  ! No switch finds %s: bring it to the mark that it stood on at frame 0.\n", strings.Join(blind, ", "))
	}
	return text + fmt.Sprintf("  ! Look before it goes on: bring frame %d back (f and its number) and lay the camera's picture over the last one. A switch is found again to some hundredths of a mm, and motors without current may come to stand full steps elsewhere.\n", (s.from-1)%s.job.Plan.Loop.Captured)
}
