// Package sequence joins shots into one clip: what is seen when, how the picture
// moves across every cut, in which order to film it, and what that takes.
package sequence

import (
	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/music"
)

// Sequence is a sequence file understood. What depends on the shots, such as
// how many frames a second are, is left for Join.
type Sequence struct {
	Title     string
	File      string    // where it came from, for faults
	Playback  exact.Rat // timeline frames/s; 0 where the shots say
	Card      Card
	Day       Day
	Entries   []Entry
	Defaults  []source.Default
	Setup     source.Texts // set-ups of the shots that name none
	timecode  source.Text
	dropFrame source.Switch
	music     *music.Raw
	beside    source.Beside // what the file names beside itself
}

// Entry is one shot in its place.
type Entry struct {
	File   string        // as seen from the sequence, with / between folders; never outside its folder
	From   unit.Quantity // on screen, into the shot's loop: a time or frames
	Length unit.Quantity // on screen: a time or frames; 0 where Rounds counts
	Rounds int64         // whole rounds of the loop seen, where Length is 0
	Beats  music.Length  // how long, where it is counted by the music; else 0
	Until  unit.Quantity // of the clip, on screen, where it ends; 0 where it is named by the music or not said
	Takes  int           // wanted, at least 1
	Rig    string        // how the rig stands; "" = by the rig of the shot
	Light  string        // how the light stands; "" = by the lamps of the shot
	Use
	Recording

	file, from, length, until source.Text
	place                     source.Place
	path                      string // "shot[2]."
	lasts                     string
}

// Card is what the camera records, and on what. A rate of 0 is not known.
type Card struct {
	Rate  exact.Rat // bytes a real second
	Frame exact.Rat // bytes a captured frame; instead of Rate, or beside it for stills
	Size  exact.Rat // bytes a card holds; 0 = not known
	Lead  exact.Rat // real s recorded before a take, and again after it
}

// Known tells whether the space a take needs is known.
func (c Card) Known() bool { return c.Rate.Sign() > 0 || c.Frame.Sign() > 0 }

// Day is what takes time between takes, in real seconds.
type Day struct {
	RigChange, LightChange, Between exact.Rat
	Slate, CountIn                  exact.Rat // before each take
	// Timed is set where the time of a change is stated: changes are then chosen
	// by how long they take, and else counted.
	Timed bool
}

// Missing is the fault of an entry whose file is not there; near is the name of
// one that is and may be meant, or "".
func (e Entry) Missing(sequence, near string) fault.Fault {
	report := source.Report{File: sequence}
	fit := "it is looked for in the folder of the sequence"
	if near != "" {
		fit = "did you mean \"" + near + "\"?"
	}
	report.Wrong(e.file, e.path+"file", "is not there", fit)
	return report.Faults[0]
}

// Unfit is the fault of an entry whose file cannot be used.
func (e Entry) Unfit(sequence, why string) fault.Fault {
	report := source.Report{File: sequence}
	report.Wrong(e.file, e.path+"file", why, "")
	return report.Faults[0]
}
