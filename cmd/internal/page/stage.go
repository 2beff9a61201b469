package page

import (
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"

	"seamrail/cmd/internal/deadman"
	"seamrail/export/drive"
)

// DriveState is how it stands with the rig. Places are mm or degrees.
type DriveState struct {
	Open     bool       `json:"open"` // a run is under way
	State    string     `json:"state"`
	Takes    []string   `json:"takes"` // the requests that the state takes
	Lost     bool       `json:"lost"`  // the page that drives has not been heard of
	Where    string     `json:"where"` // the port, or "virtual"
	Plan     string     `json:"plan"`  // hash of the motion it runs
	Axes     []AxisName `json:"axes"`
	Cautions []string   `json:"cautions"`
	Readback []Readback `json:"readback"`
	Said     []Said     `json:"said"`
	Count    int        `json:"count"` // beats left of the count-in
	Calls    []Call     `json:"calls"` // beats of the count-in and of hands, the last of them
	Next     *Coming    `json:"next"`  // the hand whose count comes next, and when; null where that is not known
	Take     int        `json:"take"`
	Round    int64      `json:"round"`  // from 0; -1 in the run-up
	Rounds   int64      `json:"rounds"` // of the take; 0 = until told to end
	Frame    int64      `json:"frame"`  // captured
	Back     bool       `json:"back"`
	Taken    int64      `json:"taken"` // of a take frame by frame: frames exposed
	Of       int64      `json:"of"`    // of it: frames in all; 0 of another
	Left     float64    `json:"left"`  // s of it until its last frame is exposed; 0 where that is not known
	Timecode string     `json:"timecode"`
	Elapsed  float64    `json:"elapsed"` // s from frame 0
	Share    float64    `json:"share"`
	Pos      []float64  `json:"pos"`
	Seen     *Seen      `json:"seen"`   // where it was at one instant, and where the plan has it then; null before any take
	Late     float64    `json:"late"`   // s
	Buffer   float64    `json:"buffer"` // 0..1
	Marks    []Mark     `json:"marks"`  // places that were marked, for the page to set
	Held     *Held      `json:"held"`   // the axis that was moved by hand last
	Passes   []Pass     `json:"passes"`
	Ended    string     `json:"ended,omitempty"` // how the run ended, in words
	Failed   bool       `json:"failed"`
	Wire     bool       `json:"wire"`   // what went over its wire can be downloaded
	RunsOn   string     `json:"runsOn"` // what it does when it is told nothing any more
}

// NewDriveState is how it stands with no rig, every list empty.
func NewDriveState() DriveState {
	return DriveState{
		State: "no rig", Takes: []string{}, Axes: []AxisName{}, Cautions: []string{}, Readback: []Readback{}, Said: []Said{}, Pos: []float64{},
		Calls: []Call{}, Marks: []Mark{}, Passes: []Pass{},
	}
}

// AxisName is an axis of the run.
type AxisName struct {
	Name   string    `json:"name"`
	Unit   string    `json:"unit"`
	Speeds []float64 `json:"speeds"` // at which it is moved by hand, units/s, the least first
	Rests  []float64 `json:"rests"`  // of each, how far it goes on at the most once it is let go of, mm or degrees
}

// Held is an axis that is moved by hand.
type Held struct {
	Axis   int     `json:"axis"`
	Gone   float64 `json:"gone"` // mm or degrees since it was held
	Moving bool    `json:"moving"`
	After  float64 `json:"after"` // s from the last word of the page about it to its rest
}

// Readback is what the controller has to be set to for an axis.
type Readback struct {
	Axis     string `json:"axis"`
	Setting  string `json:"setting"` // what the controller calls it; "" where it is not asked
	What     string `json:"what"`
	Wanted   string `json:"wanted"`
	Compared bool   `json:"compared"` // and found the same
}

// Said is one thing that the engine said.
type Said struct {
	Number int    `json:"n"`
	Text   string `json:"text"`
}

// Pass is a pass that has ended.
type Pass struct {
	Take    int     `json:"take"`
	End     string  `json:"end"`
	Detail  string  `json:"detail,omitempty"`
	Rounds  int64   `json:"rounds"`
	Frames  int64   `json:"frames"`  // of a take frame by frame: exposed
	Of      int64   `json:"of"`      // of it: frames in all; 0 of another
	Planned float64 `json:"planned"` // s
	Lasted  float64 `json:"lasted"`  // s, 0 where it did not end by itself
	Held    bool    `json:"held"`
}

// saidKept is how many of the last things said a page finds that comes late.
const saidKept = 40

// stage is what is seen of a run. It is drive.Observer, on the goroutine of the
// engine, and read by every stream.
type stage struct {
	mu      sync.Mutex
	state   DriveState
	now     drive.State
	entered int64 // states so far
	version int64
	said    int
	called  int       // beats so far
	word    time.Time // when the page last said something of what it holds
	markOf  func(name string, axis int, at float64) (Mark, error)
	news    func()
}

// look returns the state and its version, which grows with every change.
func (s *stage) look() (DriveState, int64) {
	s.mu.Lock()
	defer s.mu.Unlock()
	out := s.state
	out.Said, out.Passes, out.Marks = slices.Clone(out.Said), slices.Clone(out.Passes), slices.Clone(out.Marks)
	out.Pos, out.Readback, out.Calls = slices.Clone(out.Pos), slices.Clone(out.Readback), slices.Clone(out.Calls)
	return out, s.version
}

// change changes the state and tells of it.
func (s *stage) change(f func(*DriveState)) {
	s.mu.Lock()
	f(&s.state)
	s.version++
	s.mu.Unlock()
	s.news()
}

// set begins anew for a run.
func (s *stage) set(first DriveState, markOf func(string, int, float64) (Mark, error)) {
	s.mu.Lock()
	s.markOf, s.now = markOf, drive.Opening
	s.mu.Unlock()
	s.change(func(d *DriveState) { *d = first })
}

// at is the state of the engine, and how many it has been in.
func (s *stage) at() (drive.State, int64) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.now, s.entered
}

// jogs tells whether an axis that was held still moves, as far as is told.
func (s *stage) jogs() bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.state.Held != nil && s.state.Held.Moving
}

// taken are the requests that each state takes, by the page's names for them.
var taken = map[drive.State][]string{
	drive.Unsettled:   {"home", "here", "unlock", "jog", "jog-hold"},
	drive.Ready:       {"go", "jog", "jog-hold", "mark", "pose", "walk", "home", "here"},
	drive.Cautioning:  {"confirm", "decline"},
	drive.Running:     {"finish"},
	drive.Slowing:     {"abort"},
	drive.Draining:    {"abort"},
	drive.Resting:     {"resume", "restart"},
	drive.Awaiting:    {"taken"},
	drive.Approaching: {},
}

// onCurve tells whether a rig is on the curve of its plan, or may be.
func onCurve(x drive.State) bool {
	return x >= drive.Running && x <= drive.Awaiting || x == drive.Over
}

// Enter is told each state.
func (s *stage) Enter(x drive.State) {
	s.mu.Lock()
	s.now = x
	s.entered++
	s.mu.Unlock()
	s.change(func(d *DriveState) {
		d.State, d.Takes, d.Count = x.String(), append([]string{"stop", "quit"}, taken[x]...), 0
		if d.Held != nil { // a stop of it ends in another state
			s.holds(d, Held{Axis: d.Held.Axis, Gone: d.Held.Gone})
		}
		if x >= drive.Unsettled && x < drive.Over && x != drive.Homing {
			d.compared()
		}
		if !onCurve(x) {
			d.Seen = nil
		}
		if x == drive.Homing || x == drive.Posing || x == drive.Approaching || x == drive.Returning {
			d.Pos = []float64{} // nobody is told where it is on the way
		}
		d.Next = nil
		d.RunsOn = runsOn(x, d.Where == virtualPort, 0)
	})
}

// compared notes that the engine has got past the settings: it goes on with none
// that differs.
func (d *DriveState) compared() {
	for i := range d.Readback {
		d.Readback[i].Compared = d.Readback[i].Setting != ""
	}
}

// Say is told what to read.
func (s *stage) Say(text string) {
	s.change(func(d *DriveState) {
		s.said++
		d.Said = append(d.Said, Said{s.said, text})
		d.Said = d.Said[max(len(d.Said)-saidKept, 0):]
	})
}

// Progress is told where the take is.
func (s *stage) Progress(g drive.Progress) {
	s.change(func(d *DriveState) {
		d.Take, d.Round, d.Rounds, d.Frame, d.Back, d.Timecode = g.Take, g.Round, g.Rounds, g.Frame, g.Back, g.Timecode
		d.Taken, d.Of, d.Left = g.Taken, g.Of, g.Left.Seconds()
		d.Elapsed, d.Share, d.Late, d.Buffer = g.Elapsed.Seconds(), g.Share, g.Late, g.Fill
		d.Pos, d.Seen, d.Next = slices.Clone(g.Seen.At), seenAs(g.Seen), comingAs(g.Next)
		d.RunsOn = runsOn(s.now, d.Where == virtualPort, g.Ahead)
	})
}

// markName is the name of a mark of an axis, which the engine hands back.
func markName(name string, axis int) string { return name + " " + strconv.Itoa(axis) }

// Marked turns a place into a value of the shot. What that does to the plan takes a
// moment, and the engine does not wait for it.
func (s *stage) Marked(name string, at []float64) {
	cut := max(strings.LastIndexByte(name, ' '), 0)
	axis, err := strconv.Atoi(strings.TrimSpace(name[cut:]))
	if err != nil || axis < 0 || axis >= len(at) {
		return
	}
	s.change(func(d *DriveState) { d.Pos, d.Seen = slices.Clone(at), nil })
	deadman.Go(func() {
		m, err := s.markOf(name[:cut], axis, at[axis])
		if err != nil {
			s.Say(err.Error())
			return
		}
		s.change(func(d *DriveState) { d.Marks = append(d.Marks, m) })
	})
}

// Jogged is told where the axes are while one is moved by hand.
func (s *stage) Jogged(j drive.Jogged) {
	s.change(func(d *DriveState) {
		s.holds(d, Held{Axis: j.Axis, Gone: j.Gone, Moving: j.Moving})
		if j.At != nil {
			d.Pos, d.Seen = slices.Clone(j.At), nil
		}
	})
}

// holds notes how it stands with the axis that is moved by hand. How long it went on is
// kept from when it was first seen to rest.
func (s *stage) holds(d *DriveState, h Held) {
	switch {
	case h.Moving:
	case d.Held != nil && !d.Held.Moving:
		h.After = d.Held.After
	default:
		h.After = time.Since(s.word).Seconds()
	}
	d.Held = &h
}

// heard notes that the page has just said something of what it holds.
func (s *stage) heard() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.word = time.Now()
}

// Passed is told each pass that has ended.
func (s *stage) Passed(p drive.Pass) {
	s.change(func(d *DriveState) {
		d.Passes = append(d.Passes, Pass{p.Take, p.End.String(), p.Detail, p.Rounds, p.Frames, p.Of, p.Planned, p.Executed, p.Held})
		d.Calls, d.Next = []Call{}, nil
	})
}

// ended says how the run ended.
func (s *stage) ended(how string, err error) {
	s.change(func(d *DriveState) {
		d.Open, d.Ended, d.Failed, d.Takes = false, how, err != nil, []string{}
		if err != nil {
			d.Ended = err.Error()
		}
	})
}
