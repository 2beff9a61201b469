// Package footage is the command that looks through what was filmed.
package footage

import (
	"context"
	"fmt"
	"io"
	"os/exec"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/film"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/laid"
	"seamrail/cmd/internal/rushes"
	"seamrail/export/report/footagereport"
	"seamrail/motion/footage/against"
	"seamrail/motion/footage/alike"
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
	Keep    Keep   // what of them is kept
	Told    command.Told
}

// NewCmdFootage returns the footage command. A nil run means the real one.
func NewCmdFootage(s command.Streams, run func(*Options) error) *cobra.Command {
	o := &Options{Streams: s, Keep: Keep{Now: time.Now}}
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
Nothing is written to any of them.

With --keep a film is kept as a take of the log beside the shot, by its number: the log
then has the name of the file, its timecode, frame 0 and the seam, and the edit is told
of that file by its own frames. Without the number it is the take whose clip is called
so, or the only one by its time and its length; where that is not clear, none.`,
		Example: `  seamrail footage take3.mov --shot lantern.toml
  seamrail footage take1.mov take2.mov take3.mov --shot lantern.toml
  seamrail footage take2.mov --shot lantern.toml --keep take2.mov=2
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
	f.StringVar(&o.Play, "play", "", "write the best loop to `FILE` as an animated PNG")
	o.Keep.register(f)
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
	part bool // not all of its frames were wanted
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
	if err := o.Keep.begin(o.Shot.Shot, o.Films, j); err != nil {
		return err
	}
	if len(o.Films) > 1 {
		return o.several(asked, j)
	}
	s, err := o.look(o.Films[0], asked, j)
	if err != nil {
		return err
	}
	o.Keep.saw(&s)
	failed := o.Keep.write()
	if err := firstOf(failed, o.Told.Tell(o.Streams, s.data)); err != nil {
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
	if o.Output != "" || o.Alike != "" || o.Seam != "" || o.Play != "" {
		return exit.Misused("figures are of one recording; ask for each by itself")
	}
	t := footagereport.Takes{}
	if j != nil {
		t.Shot = j.Plan.Title
	}
	var all []*seen
	for _, name := range o.Films {
		s, err := o.look(name, asked, j)
		if err != nil {
			return err
		}
		s.data.Course.About.Name = name
		s.take = nil // a night of them is more than fits
		o.Keep.saw(&s)
		all = append(all, &s)
	}
	failed := o.Keep.write()
	for _, s := range all {
		t.List = append(t.List, s.data)
	}
	if err := firstOf(failed, o.Told.Tell(o.Streams, t)); err != nil {
		return err
	}
	return planned(t.List...)
}

// look looks through a recording, with a bar where it takes long.
func (o *Options) look(name string, asked film.Options, j *job.Job) (seen, error) {
	bar := command.NewProgress(o.Streams, -1)
	take, err := rushes.Look(context.Background(), name, rushes.Options{Film: asked, Tell: func(done, of int) { bar.Next(progressWords(name, done, of)) }})
	bar.Finish()
	if err != nil {
		return seen{}, err
	}
	s := seen{name: name, take: take, part: asked.Frames.Bounded}
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
	part, err := regionOf(o.Region)
	if err != nil {
		return footagereport.Data{}, err
	}
	return laid.Found(context.Background(), take, j, p, laid.Asked{
		Faces: o.Faces, Wide: part.Width, Lengths: func() (alike.Range, error) { return o.lengths(take, j) },
	})
}

// draw draws all figures that are asked for.
func (o *Options) draw(kinds [2]string, s seen, asked film.Options) error {
	for _, figure := range []struct {
		file string
		draw func() error
	}{
		{o.Output, func() error {
			return command.DrawToo(o.Streams, o.Output, o.Told.JSON, func(w io.Writer) error {
				return footageplot.Draw(w, kinds[0], laid.Figure(s.data, s.plan))
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
