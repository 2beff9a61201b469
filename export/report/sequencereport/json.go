package sequencereport

import (
	"math"

	"seamrail/export/report"
	"seamrail/export/report/musicreport"
	"seamrail/motion/base/exact"
	"seamrail/motion/camera/picture"
	"seamrail/motion/edit/sequence"
	"seamrail/motion/edit/timeline"
)

// Schema names the layout of the JSON report. It changes when a key changes its
// meaning or goes; keys may be added.
const Schema = "seamrail-sequence/1"

// Document is the JSON report. Frames are those of the timeline but where they
// are named captured; seconds are real but where they are named screen.
type Document struct {
	Schema   string             `json:"schema"`
	Title    string             `json:"title"`
	Playback exact.Rat          `json:"playback"`
	Frames   int64              `json:"frames"`
	Screen   exact.Rat          `json:"screen_seconds"`
	First    string             `json:"first_label"`
	Last     string             `json:"last_label"`
	Pieces   []Piece            `json:"pieces"`
	Music    *musicreport.Music `json:"music,omitempty"` // what cuts are named by
	Cuts     []Cut              `json:"cuts"`            // the last leads from the clip's end to its beginning
	Films    []Film             `json:"films"`
	Order    Order              `json:"order"`
	Needs    Needs              `json:"needs"`
	Troubles []Trouble          `json:"troubles"`
	Heads    []HeadOf           `json:"headlines"` // of the plan of each shot
	Defaults []report.Default   `json:"defaults"`
	// Proposals are cuts that were looked for, Events the stretches of takes that the clip
	// is handed on in, and Joins how each leads into the next.
	Proposals []Proposal `json:"proposals"`
	Events    []Event    `json:"events"`
	Joins     []Join     `json:"joins"`
}

// Proposal is where a cut would carry the motion best.
type Proposal struct {
	Cut    int   `json:"cut"`       // index in cuts
	Out    int64 `json:"out_frame"` // of the shot, beyond its loop in the next round
	In     int64 `json:"in_frame"`
	Better bool  `json:"better"`
	Was    Carry `json:"was"`
	Would  Carry `json:"would"`
}

// Carry is how the picture goes on.
type Carry struct {
	Jump float64 `json:"jump_px"`
	Kick float64 `json:"kick_px_per_frame"`
	Turn float64 `json:"turn_deg"`
}

// Event is a stretch of a take.
type Event struct {
	Piece    int       `json:"piece"` // index in pieces
	Take     int       `json:"take"`
	Filmed   bool      `json:"filmed"`
	Reel     string    `json:"reel"`
	Start    int64     `json:"start"`
	Frames   int64     `json:"frames"`
	First    exact.Rat `json:"first_captured"` // of the take
	Used     exact.Rat `json:"used_captured"`
	Recorded int64     `json:"recorded"`
	Round    int64     `json:"round"` // from 1
	Before   int64     `json:"before"`
	After    int64     `json:"after"`
	Again    bool      `json:"again"` // the clip dissolves into its own beginning
	Loop     *Carry    `json:"loop"`  // how its shot's loop meets its own beginning; null where it is not known
	Shows    bool      `json:"loop_shows"`
}

// Join is how a stretch leads into the next.
type Join struct {
	Kind   string   `json:"kind"`
	Frame  int64    `json:"frame"`
	Carry  *Carry   `json:"carry"` // null where it is not known
	Shows  bool     `json:"shows"`
	In     int64    `json:"dissolve_before"`
	Out    int64    `json:"dissolve_after"`
	Stated bool     `json:"stated"`
	Lacks  string   `json:"lacks"`
	Off    *float64 `json:"off_px"` // null where it is not known
}

// HeadOf is the headline of a shot's plan.
type HeadOf struct {
	File string `json:"file"`
	report.Verdict
}

// Piece is a shot in its place.
type Piece struct {
	File   string `json:"file"`
	Title  string `json:"title"`
	Label  string `json:"label"`
	Start  int64  `json:"start"`
	From   int64  `json:"from"`
	Frames int64  `json:"frames"`
	Loop   int64  `json:"loop"`
	Film   int    `json:"film"` // index in films
}

// Cut is what the motion does across a cut.
type Cut struct {
	From      int      `json:"from"` // index in pieces
	To        int      `json:"to"`
	Frame     int64    `json:"frame"` // the clip's
	Label     string   `json:"label"`
	Momentum  string   `json:"momentum"`
	Seen      bool     `json:"seen"` // by the picture; else by the axes
	Angle     float64  `json:"angle_deg"`
	Pace      float64  `json:"pace"`
	Otherwise bool     `json:"rig_stands_otherwise"`
	Placed    bool     `json:"placed"` // the product is in both pictures
	Jump      float64  `json:"jump_widths"`
	Grows     float64  `json:"grows"`
	Out       Side     `json:"out"`
	In        Side     `json:"in"`
	Lacks     []string `json:"lacks"`
}

// Side is a frame beside a cut.
type Side struct {
	Frame    int64   `json:"frame"`
	Captured int64   `json:"captured_frame"`
	Flow     *Flow   `json:"flow"` // null where it is not known
	Axes     []Speed `json:"axes"`
}

// Flow is the picture's motion, in picture widths and widths per on-screen
// second.
type Flow struct {
	Follows string  `json:"follows"`
	X       float64 `json:"x"`
	Y       float64 `json:"y"`
	Right   float64 `json:"right"`
	Up      float64 `json:"up"`
	Toward  float64 `json:"toward"`
}

// Speed is that of an axis, per on-screen second.
type Speed struct {
	Axis  string  `json:"axis"`
	Unit  string  `json:"unit"`
	Speed float64 `json:"speed"`
}

// Film is one thing to film.
type Film struct {
	File     string    `json:"file"`
	Rig      string    `json:"rig"`
	Light    string    `json:"light"`
	Takes    int       `json:"takes"`
	Recorded int64     `json:"captured_frames"` // of a take, with the camera's lead
	Motion   exact.Rat `json:"motion_seconds"`
	Record   exact.Rat `json:"record_seconds"`
	Bytes    *int64    `json:"bytes"` // of a take; null where it is not known
	Records  string    `json:"records"`
	Spent    Spent     `json:"take"`
}

// Spent is where the real time of a take goes, in s.
type Spent struct {
	Slate   exact.Rat `json:"slate_seconds"`
	CountIn exact.Rat `json:"count_in_seconds"`
	Lead    exact.Rat `json:"lead_seconds"` // before and again after the motion
	RunUp   exact.Rat `json:"run_up_seconds"`
	Rounds  exact.Rat `json:"rounds_seconds"`
	RunOut  exact.Rat `json:"run_out_seconds"`
	Return  exact.Rat `json:"return_seconds"`
	All     exact.Rat `json:"all_seconds"`
}

// Order is the order to film in.
type Order struct {
	Films        []int `json:"films"` // indices
	RigChanges   int   `json:"rig_changes"`
	LightChanges int   `json:"light_changes"`
	Least        bool  `json:"least"` // no order needs less
	Counted      bool  `json:"counted"`
}

// Needs is what all takes need.
type Needs struct {
	Takes   int       `json:"takes"`
	Motion  exact.Rat `json:"motion_seconds"`
	Record  exact.Rat `json:"record_seconds"`
	Changes exact.Rat `json:"change_seconds"`
	Between exact.Rat `json:"between_seconds"`
	Day     exact.Rat `json:"day_seconds"`
	Bytes   *int64    `json:"bytes"`
	Card    *int64    `json:"card_bytes"`
}

// Facts tells it to programs: a Document.
func (d Data) Facts() any {
	c := d.Clip
	t, o := c.Totals(), c.Order
	out := Document{
		Schema: Schema, Title: c.Title, Playback: c.Playback, Frames: c.Frames, Screen: c.OnScreen(),
		First: c.Label(0), Last: c.Label(c.Frames - 1), Troubles: report.List(d.Troubles),
		Order:    Order{o.Order, o.RigChanges, o.LightChanges, o.Least, c.Counted},
		Needs:    Needs{t.Takes, t.Motion, t.Record, t.Changes, t.Between, t.Day, whole(t.All()), whole(c.Card.Size)},
		Music:    musicreport.Of(c.Music, nil),
		Defaults: report.Each(d.Defaults, report.DefaultOf),
		Heads:    report.Each(d.Heads, func(x Head) HeadOf { return HeadOf{x.File, report.VerdictOf(x.Headline)} }),
		Pieces: report.Each(c.Pieces, func(p sequence.Piece) Piece {
			return Piece{p.Entry.File, p.Shot.Title, c.Label(p.Start), p.Start, p.From, p.Frames, p.Shot.Loop.Screen, p.Film}
		}),
		Cuts: report.Each(c.Cuts, func(x sequence.Cut) Cut { return cutOf(c, x) }),
		Films: report.Each(c.Films, func(f sequence.Film) Film {
			return Film{f.File, f.Setup.Rig, f.Setup.Light, f.Takes, f.Recorded, f.Seconds, f.Record, whole(f.Bytes), string(f.Kind()), spentOf(f.Spent)}
		}),
	}
	out.Proposals = report.Each(d.Proposals, func(p sequence.Proposal) Proposal {
		return Proposal{p.Cut, p.Out, p.In, p.Better(), carryOf(p.Was), carryOf(p.Would)}
	})
	out.Events, out.Joins = []Event{}, []Join{}
	if d.Timeline != nil {
		out.Events, out.Joins = report.Each(d.Timeline.Events, eventOf), report.Each(d.Timeline.Joins, joinOf)
	}
	return out
}

func spentOf(s sequence.Spent) Spent {
	return Spent{s.Slate, s.CountIn, s.Lead, s.RunUp, s.Rounds, s.RunOut, s.Return, s.All()}
}

func carryOf(c sequence.Carry) Carry {
	return Carry{rounded(math.Hypot(c.Jump, c.Grows)), rounded(c.Kick), rounded(c.Turn)}
}

func eventOf(e timeline.Event) Event {
	return Event{
		Piece: e.Piece, Take: e.Number(), Filmed: !e.Planned(), Reel: e.Reel, Start: e.Start, Frames: e.Frames,
		First: e.First, Used: e.Used, Recorded: e.Recorded, Round: e.Round + 1, Before: e.Before, After: e.After, Again: e.Again,
		Loop: carryIf(e.Loop), Shows: e.Loop.Shows,
	}
}

// carryIf is how a picture goes on, nil where that is not known.
func carryIf(m timeline.Meeting) *Carry {
	if !m.Known {
		return nil
	}
	c := carryOf(m.Carry)
	return &c
}

// kinds are what joins are called.
var kinds = map[timeline.Kind]string{timeline.GoesOn: "goes on", timeline.Cut: "cut", timeline.Seam: "seam"}

func joinOf(j timeline.Join) Join {
	out := Join{Kind: kinds[j.Kind], Frame: j.Frame, Carry: carryIf(j.Meeting), Shows: j.Shows, In: j.In, Out: j.Out, Stated: j.Stated, Lacks: j.Lacks}
	if j.OffKnown {
		off := rounded(j.Off)
		out.Off = &off
	}
	return out
}

// rounded is what numbers keep.
var rounded = report.Millionth

func cutOf(c *sequence.Clip, x sequence.Cut) Cut {
	out := Cut{
		From: x.From, To: x.To, Frame: x.Frame, Label: c.Label(x.Frame), Momentum: x.Momentum.String(), Seen: x.Seen,
		Angle: rounded(x.Angle), Pace: rounded(x.Pace), Jump: rounded(x.Jump), Grows: rounded(x.Grows),
		Otherwise: x.Otherwise, Placed: x.Placed,
		Out: sideOf(x.Out), In: sideOf(x.In), Lacks: []string{},
	}
	if !x.Seen {
		out.Lacks = append(out.Lacks, x.Lacks...)
	}
	return out
}

func sideOf(s sequence.Side) Side {
	return Side{
		Frame: s.Frame, Captured: s.Captured, Flow: flowOf(s.Flow),
		Axes: report.Each(s.Axes, func(a sequence.AxisSpeed) Speed { return Speed{a.Axis, a.Unit, rounded(a.Speed)} }),
	}
}

func flowOf(f *picture.Flow) *Flow {
	if f == nil {
		return nil
	}
	return &Flow{f.Followed, rounded(f.X), rounded(f.Y), rounded(f.Right), rounded(f.Up), rounded(f.Toward)}
}

// whole is a number of bytes, part ones up; nil for none, and for more than a
// program could count.
func whole(bytes exact.Rat) *int64 {
	n, ok := bytes.Ceil().Int64()
	if !ok || n == 0 {
		return nil
	}
	return &n
}
