package takelog

import "seamrail/motion/base/exact"

// Film is a camera's file that was looked through, and that a person keeps as a take. Frames are
// its own, from 0.
type Film struct {
	File     string    `json:"file"`               // without its folders
	Rate     exact.Rat `json:"frames_per_second"`  // as the file has it; 0 where it has none
	Timecode string    `json:"timecode,omitempty"` // of its first frame
	Frames   int64     `json:"film_frames"`        // that it has
	Zero     float64   `json:"frame_0"`            // at which frame 0 of the plan begins, a fraction
	Sure     float64   `json:"frame_0_standard_uncertainty"`
	By       string    `json:"frame_0_by"`        // "picture", "times", "mark", "hand"; "" where it is not known
	Trusted  bool      `json:"trusted,omitempty"` // a person has said that this counts
	Late     float64   `json:"late_frames"`       // by which the round that is kept began late beside frame 0
	Longer   float64   `json:"longer_frames"`     // that it lasted longer than planned
	Round    int64     `json:"film_round"`        // that is kept, from 0
	In       int64     `json:"loop_in"`           // the first frame that is kept
	Out      int64     `json:"loop_out"`          // the seam: the first after them
	TakeBy   string    `json:"take_by"`           // how it was found to be this take: "number", "clip", "time"
	Verdict  string    `json:"verdict"`           // beside its plan
	Apart    float64   `json:"apart_px"`          // the most; 0 where that is not known
	From     int64     `json:"best_from"`         // of its best loop
	Length   int64     `json:"best_frames"`       // of that; 0 for none
	Unseen   bool      `json:"best_unseen"`       // its seam is not seen
	AsGood   bool      `json:"best_as_good"`      // the loop that is kept is as good
	Still    string    `json:"still,omitempty"`   // that is frame loop_in
	Actions  []Action  `json:"actions,omitempty"` // of hands
}

// Action is what was seen of a hand.
type Action struct {
	Cue   string `json:"cue"`
	Round int64  `json:"action_round"`        // of the take, from 0
	How   string `json:"how"`                 // "inside", "early", "late", "not seen", "not told"
	Off   int64  `json:"off_frames"`          // by how many captured frames early or late
	From  int64  `json:"seen_from,omitempty"` // the first frame of the file in which it was seen
	To    int64  `json:"seen_to,omitempty"`   // and the last
}
