package page

import (
	"errors"
	"fmt"
	"math"
	"net/http"
	"path/filepath"
	"time"

	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/laid"
	"seamrail/cmd/internal/logbook"
	"seamrail/export/drive/takelog"
	"seamrail/export/report/footagereport"
	"seamrail/motion/base/plain"
)

// filmKeeps keeps what was accepted of a film as a take of the log.
type filmKeeps struct {
	Film  key    `json:"film"`
	Take  int    `json:"take"`
	Trust string `json:"trust"` // "picture" or "mark" where they have frame 0 apart; ""
}

// FilmKept says what the log has of a film now.
type FilmKept struct {
	Take  int      `json:"take"`
	Log   string   `json:"log"`
	Words []string `json:"words"`
}

// filmLies is how a film lies on the plan that it was laid on last.
type filmLies struct {
	job  *job.Job
	data footagereport.Data
}

// lies is that of a film; an error where it was laid on none.
func (r *reel) lies() (filmLies, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.laid == nil {
		return filmLies{}, errors.New("the film is laid on no plan yet")
	}
	return *r.laid, nil
}

// keepable are the takes of the log as which a film can be kept.
func (s *desk) keepable(r *reel) ([]int, error) {
	l, err := r.lies()
	if err != nil {
		return []int{}, err
	}
	file, err := fileOf(r)
	if err != nil {
		return []int{}, err
	}
	log, err := logbook.Keepable(s.shot, l.job.Plan.Hash())
	if err != nil {
		return []int{}, err
	}
	takes := log.Fit(file)
	if len(takes) == 0 {
		return []int{}, fmt.Errorf("no take in %s is whole, of this plan and without a film", filepath.Base(logbook.NameOf(s.shot)))
	}
	return takes, nil
}

// fileOf is what the log calls a film.
func fileOf(r *reel) (string, error) { return takelog.ClipName(filepath.Base(r.name)) }

// keepFilm writes what was accepted of a film to the log, as the footage command does with --keep.
func (s *desk) keepFilm(q filmKeeps) (*FilmKept, error) {
	r, leave, err := s.film.at(q.Film)
	if err != nil {
		return nil, err
	}
	defer leave()
	r.mu.Lock()
	accepted := r.accepted
	r.mu.Unlock()
	if accepted == nil {
		return nil, refused(http.StatusConflict, "nothing of the film was accepted")
	}
	if q.Trust != "" && q.Trust != laid.TrustPicture && q.Trust != laid.TrustMark {
		return nil, refused(http.StatusBadRequest, fmt.Sprintf("%q is neither picture nor mark", plain.Text(q.Trust)))
	}
	l, err := r.lies()
	if err != nil {
		return nil, refused(http.StatusConflict, err.Error())
	}
	return s.keepAs(r, l, *accepted, q)
}

func (s *desk) keepAs(r *reel, l filmLies, a Accepted, q filmKeeps) (*FilmKept, error) {
	file, err := fileOf(r)
	if err != nil {
		return nil, err
	}
	log, err := logbook.Keepable(s.shot, l.job.Plan.Hash())
	if err != nil {
		return nil, err
	}
	t, err := log.Take(q.Take, file)
	if err != nil {
		return nil, err
	}
	if rounds := int64(l.job.Plan.Rounds); t.End.Rounds != rounds {
		return nil, fmt.Errorf("take %d ran %s, and the film is laid over %d", t.Number, plain.Count(t.End.Rounds, "round"), rounds)
	}
	said, err := a.said(l, q.Trust)
	if err != nil {
		return nil, err
	}
	f := laid.Film(l.data, file, int64(len(l.data.Course.Frames)))
	name := logbook.NameOf(s.shot)
	record, kept, err := laid.Kept(l.data, l.job, name, f, t, logbook.ByNumber, said)
	if err != nil {
		return nil, err
	}
	if err := logbook.Mark(s.shot, 0, []takelog.Record{record}, time.Now()); err != nil {
		return nil, err
	}
	return &FilmKept{Take: t.Number, Log: filepath.Base(name), Words: kept.Film.Words(kept.Round)}, nil
}

// sameFrame is within what frame 0 is one that was found: the page has it to six digits.
const sameFrame = 1e-3

// said is what a hand says beyond what was found: a loop has to be as long as the plan's.
func (a Accepted) said(l filmLies, trust string) (laid.Said, error) {
	out := laid.Said{Trust: trust}
	if at, _, by := laid.ZeroOf(l.data); a.Frame0 != nil && (by == "" || math.Abs(*a.Frame0-at) > sameFrame) {
		out.Zero = a.Frame0
		for _, n := range append(l.data.Plan.Frame0.Others, l.data.Plan.Frame0.Number) { // of several a hand has chosen
			if math.Abs(n.Value+float64(l.data.First)-*a.Frame0) <= sameFrame {
				out.Sure = n.Sure
			}
		}
	}
	if a.From == nil {
		return out, nil
	}
	if n, whole := int64(*a.To-*a.From+1), l.job.Plan.Loop.Captured; n != whole {
		return out, fmt.Errorf("a loop of %d frames was accepted, and that of the plan has %d: the log keeps those", n, whole)
	}
	in := int64(*a.From)
	out.In = &in
	return out, nil
}
