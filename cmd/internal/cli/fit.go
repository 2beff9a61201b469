package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"seamrail/export/fitreport"
	"seamrail/motion/exact"
	"seamrail/motion/law"
	"seamrail/motion/move"
	"seamrail/motion/pace"
	"seamrail/motion/picture"
	"seamrail/motion/shot"
	"seamrail/motion/sight"
	"seamrail/motion/unit"
)

// FitOptions is what the fit command was asked.
type FitOptions struct {
	Streams Streams
	Shot    ShotFlags
	Between []string // two on-screen times
	Laws    []string // none means all
	Accept  string   // the worst level a check may have
	JSON    bool
}

// NewCmdFit returns the fit command. A nil run means the real one.
func NewCmdFit(s Streams, run func(*FitOptions) error) *cobra.Command {
	o := &FitOptions{Streams: s}
	if run == nil {
		run = fitRun
	}
	c := &cobra.Command{
		Use:   "fit [SHOT]",
		Short: "Find the quickest and the gentlest loop that keep the picture",
		Long: `Find the quickest and the gentlest loop that keep every bound of the picture
and every limit of the rig, its motors and its controller, by trying lengths and
motion laws on the axes that go there and back. Both were planned, verified and
looked at frame by frame.

The shot needs a [camera], and a [scene] where more than the camera is to be
looked at; its [picture] states bounds other than the usual. What no pace
changes, such as light, is told apart.`,
		Example: `  seamrail fit lantern.toml
  seamrail fit lantern.toml --between "4 s,12 s" --laws 3-4-5,cycloidal
  seamrail fit lantern.toml --accept good --json`,
		Args: atMost("one shot file"),
		RunE: func(_ *cobra.Command, args []string) error {
			o.Shot.Shot = first(args)
			return run(o)
		},
	}
	o.Shot.registerSome(c, "capture", "playback", "retime", "loop", "from", "to", "dwell-far", "dwell-near", "cycles", "turns")
	f := c.Flags()
	f.StringSliceVar(&o.Between, "between", nil, "shortest and longest loop on screen, as two `TIMES`")
	f.StringSliceVar(&o.Laws, "laws", nil, "try these `LAWS` only, with commas between")
	f.StringVar(&o.Accept, "accept", picture.Fair.String(), "worst `LEVEL` that a check may have: good, fair or poor")
	f.BoolVar(&o.JSON, "json", false, "report as JSON ("+fitreport.Schema+")")
	_ = c.RegisterFlagCompletionFunc("laws", completeLaw)
	return c
}

func fitRun(o *FitOptions) error {
	d, err := o.search()
	if err != nil {
		return err
	}
	err = deliver(o.Streams, stdout, func(w io.Writer) error {
		if o.JSON {
			return fitreport.WriteJSON(w, d)
		}
		return fitreport.Write(w, d, fitreport.Options{Colour: o.Streams.Colour})
	})
	if err != nil {
		return err
	}
	if d.Answer.Quickest == nil {
		return &LimitError{"no loop that was tried keeps the picture and the rig's limits"}
	}
	return nil
}

// search asks for the loops and words what cannot be searched.
func (o *FitOptions) search() (fitreport.Data, error) {
	s, r, err := o.Shot.load(o.Streams.In)
	if err != nil {
		return fitreport.Data{}, err
	}
	scene, ok := sight.Scene(s, r)
	if !ok {
		return fitreport.Data{}, errors.New("the shot says nothing of camera and scene; [camera] and [scene] in its file would")
	}
	q := pace.Question{Shot: s, Rig: r, Scene: scene}
	if err := o.ask(&q); err != nil {
		return fitreport.Data{}, err
	}
	bar := newProgress(o.Streams, -1)
	q.Tell = func(n int) { bar.next(counted(n, "loop") + " tried") }
	a, err := pace.Search(context.Background(), q)
	bar.finish()
	if errors.Is(err, pace.ErrRange) {
		return fitreport.Data{}, fmt.Errorf("--between: no loop from %d to %d frames has whole captured frames", q.From, q.To)
	}
	if err != nil {
		return fitreport.Data{}, sight.Located(err, s)
	}
	d := fitreport.Data{Title: s.Title, Rig: r.Name, Question: q, Answer: a, Command: "seamrail plan"}
	if o.Shot.Shot != "" {
		d.Command += " " + o.Shot.Shot
	}
	if slices.ContainsFunc(s.Axes, func(m shot.AxisMove) bool { _, ok := m.Does.(move.Shuttle); return ok }) {
		d.Laws = q.Laws
	}
	return d, nil
}

// ask reads the flags. What they leave out is filled in, so that the report can
// say it.
func (o *FitOptions) ask(q *pace.Question) error {
	for _, l := range []picture.Level{picture.Good, picture.Fair, picture.Poor} {
		if o.Accept == l.String() {
			q.Accept = l
		}
	}
	if q.Accept == picture.Unknown {
		return fmt.Errorf("--accept %q must be good, fair or poor", o.Accept)
	}
	q.Laws = law.All()
	if len(o.Laws) > 0 {
		q.Laws = nil
	}
	for _, name := range o.Laws {
		l, err := law.Named(strings.TrimSpace(name))
		if err != nil {
			return fmt.Errorf("--laws: %w", err)
		}
		q.Laws = append(q.Laws, l)
	}
	return o.between(q)
}

func (o *FitOptions) between(q *pace.Question) error {
	q.From, q.To = pace.Range(q.Shot)
	switch len(o.Between) {
	case 0:
		return nil
	case 2:
	default:
		return errors.New("--between needs the shortest and the longest loop, such as \"4 s,12 s\"")
	}
	for i, to := range []*int64{&q.From, &q.To} {
		t, err := unit.ParseAs(strings.TrimSpace(o.Between[i]), unit.Time)
		if err != nil {
			return fmt.Errorf("--between: %w", err)
		}
		frames := t.Value.Mul(q.Shot.Clock.Playback)
		if frames.Less(exact.Int(1)) || exact.Int(maxFitFrames).Less(frames) {
			return fmt.Errorf("--between %q must be from one to %d frames", strings.TrimSpace(o.Between[i]), maxFitFrames)
		}
		*to = frames.Round().Whole()
	}
	if q.From > q.To {
		return fmt.Errorf("--between %s must have the shorter loop first", strings.Join(o.Between, ","))
	}
	return nil
}

// maxFitFrames bounds the loops looked among: an hour at 24 a second.
const maxFitFrames = 100_000
