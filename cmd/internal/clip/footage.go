package clip

import (
	"fmt"
	"slices"
	"strings"

	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/logbook"
	"seamrail/motion/base/list"
	"seamrail/motion/base/plain"
	"seamrail/motion/edit/selects"
	"seamrail/motion/edit/sequence"
	"seamrail/motion/edit/timeline"
)

// Footage is what there is of each piece of a clip, by the logs of takes beside its shots.
type Footage struct {
	Pieces []timeline.Footage
	Said   []string // of kept takes that are of no use
}

// Footage reads the logs of takes: of each shot the take that the sequence names, or the
// last that is kept; where there is none, the first take as it is planned.
func (j Joined) Footage() (Footage, error) {
	var out Footage
	read := map[string]selects.Takes{}
	for i, e := range j.Sequence.Entries {
		takes, ok := read[e.File]
		if !ok {
			var err error
			if takes, err = j.kept(j.Jobs[i]); err != nil {
				return out, err
			}
			read[e.File] = takes
			out.Said = append(out.Said, said(e.File, takes)...)
		}
		f, err := chosen(j.Sequence.File, e, takes)
		if err != nil {
			return out, err
		}
		if f.Planned() {
			f.Rounds = int64(j.Jobs[i].Plan.Rounds)
		}
		out.Pieces = append(out.Pieces, f)
	}
	return out, nil
}

// kept reads the kept takes of a shot; a built-in one has no log.
func (j Joined) kept(of *job.Job) (selects.Takes, error) {
	if j.builtIn {
		return selects.Takes{}, nil
	}
	takes, err := logbook.Kept(of.Shot.File, of.Plan)
	return takes.Synced(of.Mark), err
}

// said tells of kept takes that are of no use, and of lines that cannot be read.
func said(file string, takes selects.Takes) []string {
	out := list.Map(takes.LeftOut, func(l selects.LeftOut) string {
		return fmt.Sprintf("take %d of %s is kept, but left out: %s", l.Take, file, l.Why)
	})
	if takes.Unread > 0 {
		out = append(out, fmt.Sprintf("%s of the log of %s cannot be read; which takes are kept may have been said there", plain.Count(takes.Unread, "line"), file))
	}
	return out
}

// chosen is the take of a piece.
func chosen(sequence string, e sequence.Entry, takes selects.Takes) (timeline.Footage, error) {
	filmed := slices.DeleteFunc(slices.Clone(takes.Kept), func(s selects.Select) bool { return s.Take == 0 })
	k := len(filmed) - 1
	if e.Take > 0 {
		k = slices.IndexFunc(filmed, func(s selects.Select) bool { return s.Take == e.Take })
		if k < 0 {
			return timeline.Footage{}, e.Untaken(sequence, "is no kept take of "+e.File+" that can be used", fit(filmed))
		}
	}
	if k < 0 {
		return timeline.Footage{}, nil
	}
	s := filmed[k]
	return timeline.Footage{Take: s.Take, Rounds: s.Rounds, Clip: s.Clip, Film: s.Film, Notes: s.Notes, Off: s.Off}, nil
}

// fit says which takes would do.
func fit(filmed []selects.Select) string {
	if len(filmed) == 0 {
		return "none is kept yet; left out, the first take stands as it is planned"
	}
	numbers := list.Map(filmed, func(s selects.Select) string { return fmt.Sprint(s.Take) })
	return "kept are " + strings.Join(numbers, ", ")
}

// Timeline lays the clip out from what there is of it.
func (j Joined) Timeline() (timeline.Timeline, Footage, error) {
	f, err := j.Footage()
	if err != nil {
		return timeline.Timeline{}, f, err
	}
	t, err := timeline.Of(j.Clip, f.Pieces)
	if err != nil {
		return t, f, err
	}
	t.MarkCues(list.Map(j.Jobs, seen))
	f.Said = append(f.Said, lacking(t)...)
	return t, f, nil
}

// lacking tells of films that do not have all that the clip uses of them.
func lacking(t timeline.Timeline) (out []string) {
	for i, e := range t.Events {
		if n := e.Lacks(); n > 0 {
			out = append(out, fmt.Sprintf("event %d, %s: %s lacks %s of what the clip uses of it", i+1, e.Name(), e.Film.File, plain.Count(n, "frame")))
		}
	}
	return out
}

// seen is what hands do in a shot.
func seen(j *job.Job) []timeline.Seen {
	var out []timeline.Seen
	for _, c := range j.Cues.Cues {
		out = append(out, timeline.Seen{Name: c.Name, Screen: c.Screen, In: c.In})
	}
	return out
}
