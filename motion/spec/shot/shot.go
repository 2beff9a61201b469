package shot

import (
	"errors"

	"seamrail/motion/scene"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/music"
	"seamrail/motion/spec/rig"
)

// Default is one value the shot file left out and the program filled in.
type Default = source.Default

// Shot is a shot file understood, every default filled.
type Shot struct {
	Title    string
	File     string // where it came from, for faults
	Clock    clock.Clock
	Loop     clock.Loop
	RigFile  string      // relative to the file that names it; "" when the rig is inline
	RigFrom  string      // the set-up that names it; "" for the shot itself
	Rig      *rig.Rig    // nil when it is in RigFile
	Axes     []AxisMove  // in the order of the file
	Spins    []Spin      // display stands, in the order of the file
	Cues     []Cue       // what hands do, in the order of the file
	SyncMark *SyncMark   // how the rig tells the camera when it is; nil = not at all
	Offers   []exact.Rat // other capture rates of the camera, frames/s
	// Shortest and Longest bound the loops that would do as well, in seconds on
	// screen; they mean something only in a shot with Spins.
	Shortest, Longest exact.Rat
	Quickest          bool           // all moves go along their ways together as fast as the rig can
	ByFrame           *ByFrame       // how it is taken frame by frame; nil where the camera runs
	Rounds            int            // rounds in a take, at least 1
	Handles           int64          // timeline frames kept on either side of the cut
	Timecode          clock.Timecode // of the timeline
	Start             int64          // timeline frame number of the loop's first label
	Defaults          []Default
	LeftOut           []LeftOut // what the file says and the shot goes without
	// Scene is what the picture is made with; nil where the shot says nothing of
	// it. Backlash is the rig's to say.
	Scene  *scene.Scene
	Music  music.Score             // what times are named by, and where they are
	places map[string]source.Place // of the keys of Scene
	doc    *source.Doc             // what it was understood from
	Laid   Laid                    // what lies under the file
	again  func(over []source.Override) (Shot, error)
}

// Laid is what lies under a shot file: set-ups, and files of single things.
type Laid struct {
	Files  []LaidFile    // the lowest first
	Values []source.Leaf // what stands in them, or over what stands in them
	// Home is the file in which the value at a path of the shot stands, and its path
	// there; "" for the shot's own and for what is not there. Nil where nothing lies
	// under the shot.
	Home func(path string) (file, local string)
	// Own is a path of the shot as it is in its own text, and false where what stands
	// there, if anything, is under it. Nil as Home.
	Own func(path string) (local string, ok bool)
	// Set writes a value into the text of the shot, over what lies under it. Nil as Home.
	Set func(text []byte, path, value string) ([]byte, error)
}

// Raw is the shot as it is written, with all that lies under it.
func (s Shot) Raw() Raw {
	var raw Raw
	if s.doc != nil {
		s.doc.Bind(&raw, &source.Report{File: s.File}) // what is wrong with it has been told
	}
	return raw
}

// LaidFile is a file that lies under a shot.
type LaidFile struct{ Kind, Name, Title string }

// KeptRound is which of so many rounds of a take is kept, from 0: the one in the
// middle, the later of two, which has the most of the move on either side.
func KeptRound(rounds int64) int64 { return rounds / 2 }

// Changed returns the shot as its file would give it with other values at some
// paths, such as "clock.loop". The error is a fault.List, or says that the shot was
// not read from a file.
func (s Shot) Changed(over ...source.Override) (Shot, error) {
	if s.again == nil {
		return Shot{}, errors.New("the shot was not read from a file")
	}
	return s.again(over)
}

// Axis returns what the axis called name does.
func (s Shot) Axis(name string) (AxisMove, bool) {
	for _, m := range s.Axes {
		if m.Name == name {
			return m, true
		}
	}
	return AxisMove{}, false
}
