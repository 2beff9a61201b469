package page

import (
	"context"
	"math"
	"strings"

	"seamrail/cmd/internal/laid"
	"seamrail/cmd/internal/rushes"
	"seamrail/export/report"
	"seamrail/export/report/footagereport"
	"seamrail/plot/chart/footageplot"
)

// Filmed is a take beside the plan of a shot, as the footage command tells it.
type Filmed struct {
	Name     string                `json:"name"`
	Frames   int                   `json:"frames"`
	Pictures int                   `json:"pictures"` // of so many frames from the first on there is one
	Cramped  string                `json:"cramped"`  // why not of all; "" where there is
	Level    level                 `json:"level"`
	Stamp    string                `json:"stamp"`
	Words    string                `json:"words"`
	Report   string                `json:"report"` // all of it
	Plan     *footagereport.Beside `json:"plan"`
	Pace     *footagereport.Pace   `json:"pace"`
	Loops    []footagereport.Loop  `json:"loops"`
	AsWhole  *footagereport.Whole  `json:"asWhole"` // null where all of it is no loop that was looked for
	Zero     FilmZero              `json:"zero"`
	Round    int64                 `json:"round"` // captured frames from one round to the next
	Rounds   int                   `json:"rounds"`
	Panels   []FilmPanel           `json:"panels"`
}

// FilmZero is where frame 0 of the plan is in the recording.
type FilmZero struct {
	At     *float64  `json:"at"`   // a frame of the recording; null where nothing tells it
	Sure   *float64  `json:"sure"` // one standard uncertainty; null where nothing tells it
	Others []float64 `json:"others"`
	Slower float64   `json:"slower"` // by what share more frames the recording has than the plan, by its clock or as it counts those of the timeline
}

// FilmPanel is one thing over the recording: a frame and a value each.
type FilmPanel struct {
	Name     string       `json:"name"`
	Unit     string       `json:"unit"`
	Least    float64      `json:"least"` // less than this is no motion
	Measured [][2]float64 `json:"measured"`
	Planned  [][2]float64 `json:"planned"` // empty where frame 0 is not known
}

type filmLaid struct {
	Film key    `json:"film"`
	Text string `json:"text"` // of the shot whose take it is
}

// layFilm lays a take that was looked through on the plan of a text.
func (s *desk) layFilm(ctx context.Context, q filmLaid) (*Filmed, error) {
	of, leave, err := s.film.at(q.Film)
	if err != nil {
		return nil, err
	}
	defer leave()
	take, pictures, err := of.seen()
	if err != nil {
		return nil, err
	}
	j, err := s.plannedTo(ctx, q.Text, whole) // which the page has had drawn, and is kept
	if err != nil {
		return nil, err
	}
	of.laying.Lock()
	defer of.laying.Unlock()
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	plan := rushes.PlanOf(j, take.Course.About.Width)
	d, err := laid.Found(ctx, take, j, plan, laid.Asked{})
	if err != nil {
		return nil, err
	}
	of.mu.Lock()
	of.laid = &filmLies{j, d}
	of.mu.Unlock()
	out := &Filmed{Name: of.name, Frames: len(take.Course.Frames), Pictures: len(pictures.ends), Round: plan.Loop, Rounds: plan.Rounds, Panels: listOf(laid.Figure(d, plan).Panels, filmPanel)}
	if pictures.err != nil {
		out.Cramped = pictures.err.Error()
	}
	if err := out.tell(d); err != nil {
		return nil, err
	}
	out.Zero.Slower = (1+out.Zero.Slower)*float64(laid.Counted(d, plan).Loop)/float64(plan.Loop) - 1
	return out, nil
}

// tell fills in what the footage command says.
func (f *Filmed) tell(d footagereport.Data) error {
	told := d.Report()
	for _, section := range told.Sections {
		for _, b := range section.Blocks {
			if h, ok := b.(report.Headline); ok {
				f.Level, f.Stamp, f.Words = levelOf(h.Tone), h.Stamp, h.Words
			}
		}
	}
	facts := d.Facts().(footagereport.Document)
	f.Plan, f.Pace, f.Loops, f.AsWhole = facts.Plan, facts.Pace, facts.Loops, facts.AsWhole
	f.Zero = zeroOf(facts, f.Frames)
	var all strings.Builder
	err := report.TextWithin(&all, told, false, report.Narrowest)
	f.Report = all.String()
	return err
}

func levelOf(t report.Tone) level {
	switch t {
	case report.Good:
		return good
	case report.Poor, report.Grave:
		return bad
	case report.Fair:
		return fair
	}
	return unknown
}

// zeroOf is where frame 0 most likely is. Of several places that would do as well it is the first
// that was recorded.
func zeroOf(d footagereport.Document, frames int) FilmZero {
	z := FilmZero{Others: []float64{}}
	found := d.Plan.Frame0
	if s := d.Plan.Slower.Value; s != nil {
		z.Slower = *s
	}
	if d.Pace != nil && d.Pace.Frame0.Value != nil && !d.Plan.Frame0Known {
		found, d.Plan.Others = d.Pace.Frame0, nil
	}
	recorded := func(n footagereport.Number) bool {
		return n.Value != nil && *n.Value > -0.5 && *n.Value < float64(frames)
	}
	all := append([]footagereport.Number{found}, d.Plan.Others...)
	first := 0
	for n := range all {
		if recorded(all[n]) && (!recorded(all[first]) || *all[n].Value < *all[first].Value) {
			first = n
		}
	}
	if z.At, z.Sure = all[first].Value, all[first].Sure; z.Sure == nil {
		z.At = nil // nothing tells it
	}
	for n, o := range all {
		if n != first && o.Value != nil && o.Sure != nil {
			z.Others = append(z.Others, *o.Value)
		}
	}
	return z
}

// panelDots are as many dots as a curve in a bench has pixels across, some times over.
const panelDots = 1500

func filmPanel(p footageplot.Panel) FilmPanel {
	return FilmPanel{p.Name, p.Unit, p.Least, dots(p.Measured), dots(p.Planned)}
}

// dots are the values of a series that are known, of so many that they can be told apart.
func dots(s footageplot.Series) [][2]float64 {
	out := [][2]float64{}
	for n := 0; n < len(s.Frames); n += len(s.Frames)/panelDots + 1 {
		if v := s.Values[n]; !math.IsNaN(v) && !math.IsInf(v, 0) {
			out = append(out, [2]float64{s.Frames[n], drawn(v)})
		}
	}
	return out
}
