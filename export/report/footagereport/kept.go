package footagereport

import (
	"fmt"
	"strings"

	"seamrail/export/report"
	"seamrail/motion/edit/filmed"
	"seamrail/motion/footage/pace"
)

// Kept is as which take a recording is kept.
type Kept struct {
	Take  int
	By    string // how it was found to be that one: "number", "clip" or "time"
	Log   string // in which that is written
	Film  filmed.Film
	Round int64 // captured frames of a round of the plan
}

// KeptFact is as which take a recording is kept, for programs. Frames are those of its file.
type KeptFact struct {
	Take     int      `json:"take"`
	By       string   `json:"take_by"` // "number", "clip" or "time"
	Log      string   `json:"log"`
	File     string   `json:"file"`
	ZeroBy   string   `json:"frame_0_by"` // "picture", "times", "mark"; "" where it is not known
	Zero     Number   `json:"frame_0"`
	Round    int64    `json:"round"` // that is kept, from 1
	In       int64    `json:"loop_in"`
	Out      int64    `json:"loop_out"` // the seam, which is not shown
	First    string   `json:"timecode_in"`
	Seam     string   `json:"timecode_out"`
	Rounded  *float64 `json:"rounded_frames"` // by which loop_in is later than what was found
	AsGood   bool     `json:"as_good_as_its_best_loop"`
	Sentence []string `json:"sentences"`
}

// Words say it.
func (k Kept) Words() []string {
	how := map[string]string{
		"clip": "which the log calls so", "time": "the only one by its time and length: if it is another, say its number and --drop this one",
	}[k.By]
	if how != "" {
		how = ", " + how
	}
	return append([]string{fmt.Sprintf("kept as take %d in %s%s", k.Take, k.Log, how)}, k.Film.Words(k.Round)...)
}

// kept tells as which take it is kept.
func (d Data) kept(r *report.Report) {
	if d.Kept == nil {
		return
	}
	tone := report.Good
	if !d.Kept.Film.Known() {
		tone = report.Fair
	}
	words := d.Kept.Words()
	r.Named("kept", "KEPT AS TAKE "+fmt.Sprint(d.Kept.Take))
	r.Bullets(tone, "-", words[0])
	r.Bullets(report.Plain, "-", words[1:]...)
}

func (d Data) keptFact() *KeptFact {
	if d.Kept == nil {
		return nil
	}
	k := d.Kept
	out := &KeptFact{Take: k.Take, By: k.By, Log: k.Log, File: k.Film.File, ZeroBy: string(k.Film.By), Sentence: k.Words()}
	if f := k.Film; f.Known() {
		out.Zero = Number{kept.OrNull(f.Zero), kept.OrNull(f.Sure)}
		out.Round, out.In, out.Out, out.First, out.Seam = f.Round+1, f.In, f.Out, f.Label(f.In), f.Label(f.Out)
		out.Rounded, out.AsGood = kept.OrNull(f.Rounded(k.Round)), f.Loop.AsGood
	}
	return out
}

// Word is what a recording is beside its plan, as its headline has it; "" without one.
func (d Data) Word() string {
	if d.Plan == nil {
		return ""
	}
	_, stamp := verdictOf(d.Plan.Verdict)
	if d.Pace != nil && d.Pace.Verdict.Kind != pace.NotKnown {
		_, stamp, _ = paceVerdict(d.Pace.Verdict)
	}
	if but := d.but(); but != "" {
		stamp = strings.TrimSuffix(stamp, ", BUT") + ", but " + but
	}
	return stamp
}
