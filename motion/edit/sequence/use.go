package sequence

import (
	"fmt"
	"slices"
	"strings"

	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/music"
)

// Use is which take of a shot is seen, and how it leaves the picture.
type Use struct {
	Take     int           // which of the kept ones; 0 = the last
	Reel     string        // what an edit list calls its recording; "" = made of file and take
	Dissolve unit.Quantity // on screen, into the shot after it: a time or frames

	dissolve, take, reel source.Text
}

const (
	// MaxReel is how many characters an edit list has for the name of a reel, and
	// MaxDissolve how many frames for a transition: the field has three digits, and
	// editors of tape took up to 255 (manuals of edit controllers; the standard, SMPTE ST 258,
	// was not at hand).
	MaxReel     = 8
	MaxDissolve = 255
	// maxTake bounds the number of a take.
	maxTake = 1_000_000
)

// special are names of reels that mean no recording in an edit list: black, bars, and
// a source that is no reel.
var special = []string{"AX", "BARS", "BL", "BLACK"}

func (r RawUse) build(report *source.Report, path string) Use {
	u := Use{Reel: r.Reel.Text, dissolve: r.Dissolve, take: r.Take, reel: r.Reel}
	if r.Take.Set {
		n, _ := report.Whole(r.Take, path+"take", 1, maxTake)
		u.Take = int(n)
	}
	switch {
	case !r.Reel.Set:
	case u.Reel == "" || strings.ContainsFunc(u.Reel, notOfReels):
		report.Wrong(r.Reel, path+"reel", "must be letters, digits and _ alone", `such as "A012C003"`)
	case len(u.Reel) > MaxReel:
		report.Wrong(r.Reel, path+"reel", fmt.Sprintf("has %d characters, and an edit list holds %d", len(u.Reel), MaxReel),
			fmt.Sprintf("%q would fit", u.Reel[:MaxReel]))
	case slices.Contains(special, strings.ToUpper(u.Reel)):
		report.Wrong(r.Reel, path+"reel", "means no recording in an edit list", `such as "A012C003"`)
	}
	if r.Dissolve.Set {
		u.Dissolve = onScreen(report, r.Dissolve, path+"dissolve", false)
	}
	return u
}

// notOfReels tells whether a character cannot be in the name of a reel.
func notOfReels(r rune) bool {
	return r != '_' && (r < '0' || r > '9') && (r < 'A' || r > 'Z') && (r < 'a' || r > 'z')
}

// Stated tells whether the sequence says how the shot leaves the picture.
func (u Use) Stated() bool { return u.dissolve.Set }

// dissolves sets for how many frames a piece dissolves into the one after it.
func (e Entry) dissolves(report *source.Report, p *Piece) {
	p.Dissolve = new(Piece).frames(e.Dissolve, p.Shot.Clock.Playback)
	if p.Dissolve > MaxDissolve {
		report.Wrong(e.dissolve, e.path+"dissolve", fmt.Sprintf("is %d frames, and an edit list holds %d", p.Dissolve, MaxDissolve),
			fmt.Sprintf("\"%d frames\" would fit", MaxDissolve))
	}
}

// Untaken is the fault of an entry whose take is none of those that can be used.
func (e Entry) Untaken(sequence, why, fit string) error {
	report := source.Report{File: sequence}
	report.Wrong(e.take, e.path+"take", why, fit)
	return report.Faults
}

// Doubled is the fault of an entry whose reel is another recording's too.
func (e Entry) Doubled(sequence string) error {
	report := source.Report{File: sequence}
	report.Wrong(e.reel, e.path+"reel", "names the recording of another take too", "give each take a reel of its own")
	return report.Faults
}

// Lasts is the key that says how long an entry is seen: "length", "rounds" or "until"; ""
// where none does.
func (e Entry) Lasts() string { return e.lasts }

// OnMusic tells whether the music names where an entry ends.
func (e Entry) OnMusic() bool { return e.Beats.Beats.Sign() > 0 || music.Named(e.until.Text) }
