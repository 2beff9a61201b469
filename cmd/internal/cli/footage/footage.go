// Package footage is the command that looks through what was filmed.
package footage

import (
	"context"
	"fmt"
	"io"
	"os/exec"
	"strings"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/film"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/rushes"
	"seamrail/export/report/footagereport"
	"seamrail/motion/footage/against"
	"seamrail/motion/footage/alike"
	"seamrail/motion/footage/brightness"
	"seamrail/motion/footage/intact"
	"seamrail/motion/footage/pace"
	"seamrail/motion/footage/turn"
	"seamrail/plot/chart/footageplot"
)

// Options is what the footage command was asked.
type Options struct {
	Streams command.Streams
	Films   []string // each a file, a folder of stills, a pattern of their names, or "-"
	Shot    command.ShotFlags
	Frames  string // "100-2500"; "" for all
	Region  string // "x,y,width,height" in recorded px; "" for all
	Scale   string // "1/2"; "" for as wide as is looked at
	Rate    string // in place of what the recording says; ""
	Between []string
	Faces   int    // how many sides of what turns look alike; 0 for the footage to tell
	Output  string // what was measured, drawn; "" for none
	Alike   string // how alike frames are, drawn; "" for none
	Seam    string // the frames around the seam of the best loop, drawn; "" for none
	Play    string // the best loop as it was filmed; "" for none
	Told    command.Told
}

// NewCmdFootage returns the footage command. A nil run means the real one.
func NewCmdFootage(s command.Streams, run func(*Options) error) *cobra.Command {
	o := &Options{Streams: s}
	c := &cobra.Command{
		Use:   "footage FILM...",
		Short: "Look through what was filmed: is it the plan, and where does it loop",
		Long: `Look through a recording, frame by frame: where the picture went, how bright it
was, and which two frames lead into each other.

FILM is a folder of stills (PNG, JPEG, TIFF), a pattern of their names such as
"take3/*.png", an animated PNG, YUV4MPEG2 (a file, or - for standard input), or
any film that ffmpeg reads, where that is installed.

With --shot what was measured is laid over what was planned: where frame 0 is, how
late each round ran, play, lost steps, after-shake, blows, drift, and whether the
take is the plan. Without, the best loops in it are told, over all pairs of frames
that are as far apart as --between says.

Several FILMs are takes side by side, the likeliest to be kept first: you decide.
Nothing is written to any of them.`,
		Example: `  seamrail footage take3.mov --shot lantern.toml
  seamrail footage take1.mov take2.mov take3.mov --shot lantern.toml
  seamrail footage "take3/*.png" --between "2 s,10 s" --alike alike.png
  seamrail footage take3.y4m --shot lantern.toml -o measured.svg --json`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return exit.Misused("needs a recording: a film, a folder or a pattern of stills")
			}
			return nil
		},
	}
	c.RunE = func(_ *cobra.Command, args []string) error {
		o.Films = args
		return command.Or(run, footageRun)(o)
	}
	f := c.Flags()
	f.StringVar(&o.Shot.Shot, "shot", "", "the `SHOT` file whose take it is")
	o.Shot.Register(c)
	f.StringVar(&o.Frames, "frames", "", "look at these `FRAMES` only, such as 100-2500")
	f.StringVar(&o.Region, "region", "", "look at this `PART` of the frame only: x,y,width,height in recorded px")
	f.StringVar(&o.Scale, "scale", "", "look at it so much smaller, such as 1/2 (otherwise as wide as 640 px)")
	f.StringVar(&o.Rate, "rate", "", "it was recorded at this `RATE`, whatever it says itself")
	f.StringSliceVar(&o.Between, "between", nil, "shortest and longest loop to look for, as two `LENGTHS` such as \"48 frames,10 s\"")
	f.IntVar(&o.Faces, "faces", 0, "`N` sides of what turns look alike, 1 for none")
	f.StringVarP(&o.Output, "output", "o", "", "draw what was measured to `FILE` too, ending in .png, .svg or .pdf")
	f.StringVar(&o.Alike, "alike", "", "draw how alike frames are to `FILE` too, ending in .png, .svg or .pdf")
	f.StringVar(&o.Seam, "seam", "", "draw the frames around the seam of the best loop to `FILE`, ending in .png")
	f.StringVar(&o.Play, "play", "", "write the best loop, in grey, to `FILE` as an animated PNG")
	o.Told.Register(c, footagereport.Schema)
	return c
}

// mostFaces is how many like sides are told apart by what comes again: turn asks for no more.
const mostFaces = 24

// seen is a recording that was looked through.
type seen struct {
	name string
	take *rushes.Take
	plan against.Plan
	data footagereport.Data
}

func footageRun(o *Options) error {
	kinds, err := o.kinds()
	if err != nil {
		return err
	}
	asked, err := o.film()
	if err != nil {
		return err
	}
	if o.Faces < 0 || o.Faces > mostFaces {
		return exit.Misused("--faces %d must be from 1, for a thing that looks the same once a turn, to %d", o.Faces, mostFaces)
	}
	var j *job.Job
	if o.planned() {
		if j, err = o.Shot.Job(o.Streams.In); err != nil {
			return err
		}
	}
	if len(o.Films) > 1 {
		return o.several(asked, j)
	}
	s, err := o.look(o.Films[0], asked, j)
	if err != nil {
		return err
	}
	if err := o.Told.Tell(o.Streams, s.data); err != nil {
		return err
	}
	if err := o.draw(kinds, s, asked); err != nil {
		return err
	}
	return planned(s.data)
}

// planned is an error where a take is not its plan.
func planned(list ...footagereport.Data) error {
	for _, d := range list {
		if d.Plan == nil || d.Plan.Verdict.Kind != against.Differs {
			return nil
		}
	}
	return exit.Limited("what was filmed is not the plan")
}

// several are takes side by side.
func (o *Options) several(asked film.Options, j *job.Job) error {
	if o.Told.JSON || o.Output != "" || o.Alike != "" || o.Seam != "" || o.Play != "" {
		return exit.Misused("--json and figures are of one recording; ask for each by itself")
	}
	t := footagereport.Takes{}
	if j != nil {
		t.Shot = j.Plan.Title
	}
	for _, name := range o.Films {
		s, err := o.look(name, asked, j)
		if err != nil {
			return err
		}
		s.data.Course.About.Name = name
		t.List = append(t.List, s.data)
	}
	if err := command.Tell(o.Streams, false, takesContent{t}); err != nil {
		return err
	}
	return planned(t.List...)
}

// takesContent is told to people alone.
type takesContent struct{ footagereport.Takes }

func (takesContent) Facts() any { return nil }

// look looks through a recording, with a bar where it takes long.
func (o *Options) look(name string, asked film.Options, j *job.Job) (seen, error) {
	bar := command.NewProgress(o.Streams, -1)
	take, err := rushes.Look(context.Background(), name, rushes.Options{Film: asked, Tell: func(done, of int) { bar.Next(progressWords(name, done, of)) }})
	bar.Finish()
	if err != nil {
		return seen{}, err
	}
	s := seen{name: name, take: take}
	if j != nil {
		s.plan = rushes.PlanOf(j, take.Course.About.Width)
	}
	s.data, err = o.found(take, j, s.plan)
	if s.data.Plan != nil && s.data.Plan.Timeline {
		s.plan, _ = s.plan.OnTimeline()
	}
	return s, err
}

func progressWords(name string, done, of int) string {
	if of <= 0 {
		return fmt.Sprintf("%s: frame %d", name, done)
	}
	return fmt.Sprintf("%s: frame %d of %d", name, done, of)
}

// planned tells whether there is a shot whose take it is.
func (o *Options) planned() bool { return o.Shot.Shot != "" }

// kinds are those of the two figures.
func (o *Options) kinds() (out [2]string, err error) {
	for n, name := range []string{o.Output, o.Alike} {
		if out[n], err = command.OptionalKind(name); err != nil {
			return out, err
		}
	}
	for _, name := range []string{o.Seam, o.Play} {
		if name != "" && !strings.HasSuffix(strings.ToLower(name), ".png") {
			return out, exit.Misused("%q must end in .png", name)
		}
	}
	return out, nil
}

func (o *Options) film() (out film.Options, err error) {
	out = film.Options{Decoder: exec.LookPath, Stdin: o.Streams.In}
	if out.Frames, err = framesOf(o.Frames); err != nil {
		return out, err
	}
	if out.Region, err = regionOf(o.Region); err != nil {
		return out, err
	}
	if out.Scale, err = scaleOf(o.Scale); err != nil {
		return out, err
	}
	out.Rate, err = rateOf(o.Rate)
	return out, err
}

// found is what a take tells, beside its plan where there is one.
func (o *Options) found(take *rushes.Take, j *job.Job, p against.Plan) (footagereport.Data, error) {
	d := footagereport.Data{Course: take.Course, First: take.First, Step: take.Step, Stills: take.Stills}
	for _, r := range take.Remarks {
		d.Remarks = append(d.Remarks, r.Text)
	}
	if take.Cut != nil {
		d.Cut = take.Cut.Error()
	}
	a := take.Course.About
	d.Whole = intact.Check(take.Course.Frames, float64(min(a.Width, a.Height))/2)
	if j != nil {
		d.Shot = j.Plan.Title
		for _, a := range p.Axes {
			d.Units = append(d.Units, unitOf(a))
		}
		laid, err := against.Lay(take.Course, p, rushes.GapsOf(d.Whole)...)
		if err != nil {
			return d, err
		}
		d.Plan = &laid
		if laid.Verdict.Kind == against.NotKnown {
			if paced, err := pace.Lay(take.Sketches, take.Course.Frames, p); err == nil {
				d.Pace = &paced
			}
		}
		if rates, err := intact.Compare(take.Course.About.Rate, j.Trajectory.Clock(), int64(len(take.Course.Frames))); err == nil {
			d.Rates = &rates
		}
	}
	o.picture(&d, take, j)
	return d, o.loops(&d, take, j)
}

// picture is what the frames tell by themselves: the light, and what comes again. What a recording is too short for is left out.
func (o *Options) picture(d *footagereport.Data, take *rushes.Take, j *job.Job) {
	rate := take.Course.About.Rate
	if j != nil {
		rate = j.Trajectory.Clock().Capture
	}
	if light, err := brightness.Measure(brightness.Question{Means: take.Sketches.Means, Rate: rate}); err == nil {
		d.Light = &light
	}
	if t, err := turn.Measure(context.Background(), take.Sketches, turn.Question{Rate: rate, Faces: o.Faces}); err == nil {
		d.Turn = &t
	}
}

func unitOf(a against.Axis) string {
	if a.Turning {
		return "deg"
	}
	return "mm"
}

// loops looks for loops as long as is asked for: without a word of it, as long as the plan's.
func (o *Options) loops(d *footagereport.Data, take *rushes.Take, j *job.Job) error {
	r, err := o.lengths(take, j)
	if err != nil || r.Min >= len(take.Course.Frames) {
		return err
	}
	d.Range = r
	found, err := alike.Best(context.Background(), take.Sketches, r)
	d.Loops = &found
	return err
}

// draw draws all figures that are asked for.
func (o *Options) draw(kinds [2]string, s seen, asked film.Options) error {
	for _, figure := range []struct {
		file string
		draw func() error
	}{
		{o.Output, func() error {
			return command.DrawToo(o.Streams, o.Output, o.Told.JSON, func(w io.Writer) error {
				return footageplot.Draw(w, kinds[0], measuredFigure(s.data, s.plan))
			})
		}},
		{o.Alike, func() error { return o.likeness(kinds[1], s) }},
		{o.Seam, func() error { return o.strip(asked, s) }},
		{o.Play, func() error { return o.play(asked, s) }},
	} {
		if figure.file == "" {
			continue
		}
		if err := figure.draw(); err != nil {
			return err
		}
	}
	return nil
}

func (o *Options) likeness(kind string, s seen) error {
	a, err := alikeFigure(s.data, s.take)
	if err != nil {
		return err
	}
	return command.DrawToo(o.Streams, o.Alike, o.Told.JSON, func(w io.Writer) error { return footageplot.DrawAlike(w, kind, a) })
}
