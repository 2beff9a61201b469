package sequence

import (
	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/edit/schedule"
	"seamrail/motion/music"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/shot"
)

// Planned is the shot of an entry, with its motion.
type Planned struct {
	Shot       shot.Shot
	Trajectory *trajectory.Trajectory
	Beats      int64 // of a second that its cues need before the motion
}

// Clip is a sequence whose every shot is planned.
type Clip struct {
	Title    string
	File     string    // of the sequence, for faults
	Playback exact.Rat // timeline frames/s
	Timecode clock.Timecode
	Start    int64 // timeline frame number of the first label
	Frames   int64 // timeline frames in all, at least 1
	Pieces   []Piece
	// Cuts has the cut at the end of each piece; the last leads back to the
	// first, where the clip is played on a loop.
	Cuts    []Cut
	Films   []Film          // what there is to film, in the order first seen
	Order   schedule.Answer // of Films
	Counted bool            // Order counts changes and knows no times for them
	Music   music.Score     // what cuts are named by, and where they are
	Day     Day
	Card    Card
}

// Piece is a shot in its place. Frames are those of the timeline.
type Piece struct {
	Planned
	Entry  Entry
	Start  int64 // the clip's frame at which it begins
	From   int64 // the shot's frame it begins with, within 0 and its loop
	Frames int64 // at least 1; beyond the loop's end the loop comes again
	// Rounded is set where From or Length is the nearest to what was asked.
	Rounded bool
	Film    int // which of the clip's Films it is from
	// Dissolve is how many frames it dissolves into the piece after it, the last into
	// the first, where Entry.Stated says so.
	Dissolve int64
}

// Last is the shot's frame it ends with; it may be in a later round than From.
func (p Piece) Last() int64 { return p.From + p.Frames - 1 }

// Wraps counts how often the loop's seam is passed while the piece is seen.
func (p Piece) Wraps() int64 { return p.Last() / p.loop() }

func (p Piece) loop() int64 { return p.Shot.Loop.Screen }

// seconds is when a frame of the timeline was captured, in real seconds from
// frame 0 of an endless loop.
func (p Piece) seconds(frame int64) float64 {
	return p.Trajectory.Clock().FrameTime(p.captured(frame) + frame/p.loop()*p.Trajectory.RoundFrames()).Float()
}

// captured is the frame of the loop, 0..C-1, that a frame of the timeline shows.
func (p Piece) captured(frame int64) int64 {
	return exact.Int(frame % p.loop()).Mul(p.Shot.Clock.PerScreen()).Floor().Whole()
}

// OnScreen returns how long the clip lasts, in seconds on screen.
func (c *Clip) OnScreen() exact.Rat { return exact.Int(c.Frames).Quo(c.Playback) }

// Label returns the timecode of a frame of the clip.
func (c *Clip) Label(frame int64) string { return c.Timecode.Label(c.Start + frame) }
