package cli

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/page"
	"seamrail/cmd/internal/whole"
	"seamrail/motion/exact"
	"seamrail/motion/judge"
	"seamrail/motion/kept"
	"seamrail/motion/ontime"
	"seamrail/motion/picture"
	"seamrail/motion/rig"
	"seamrail/motion/shot"
	"seamrail/motion/trajectory"
	"seamrail/motion/verify"
	"seamrail/plot/preview"
)

// pageCore is what the commands do for the page.
type pageCore struct{ o *PageOptions }

// Plan plans and checks a shot.
func (c pageCore) Plan(s shot.Shot, r rig.Rig) (page.Planned, error) {
	j, err := planned(s, r, false)
	if err != nil {
		return nil, err
	}
	return pageJob{j, &ShotFlags{Shot: c.o.Shot}}, nil
}

// Ports lists the serial ports, none where the system does not tell.
func (c pageCore) Ports() []page.Port {
	out := []page.Port{}
	list, err := systemPorts()
	if err != nil {
		return out
	}
	for _, p := range list {
		out = append(out, page.Port{Name: p.Name, About: known(said(p))})
	}
	return out
}

// pageCommands are the commands that the page asks, and the flags that it may
// set: those that change the question, and none that names a file.
var pageCommands = map[string]struct {
	flags []string
	make  func(s Streams, u *understood) *cobra.Command
}{
	"spin": {[]string{"between", "within", "symmetry", "radius", "pixels-per-mm", "offers", "cycles", "most"}, func(s Streams, u *understood) *cobra.Command {
		return NewCmdSpin(s, func(o *SpinOptions) error { o.Shot.known, o.JSON = u, true; return spinRun(o) })
	}},
	"fit": {[]string{"between", "laws", "accept"}, func(s Streams, u *understood) *cobra.Command {
		return NewCmdFit(s, func(o *FitOptions) error { o.Shot.known, o.JSON = u, true; return fitRun(o) })
	}},
	"cues": {[]string{"count-in", "ignore-takes"}, func(s Streams, u *understood) *cobra.Command {
		return NewCmdCues(s, func(o *CuesOptions) error { o.Shot.known = u; return cuesRun(o) })
	}},
}

// Ask runs a command on a shot and returns what it prints.
func (c pageCore) Ask(command string, s shot.Shot, r rig.Rig, flags map[string]string) ([]byte, error) {
	known, ok := pageCommands[command]
	if !ok {
		return nil, fmt.Errorf("the page does not ask %q", command)
	}
	args := []string{}
	for _, name := range slices.Sorted(maps.Keys(flags)) {
		if !slices.Contains(known.flags, name) {
			return nil, fmt.Errorf("the page does not set --%s of %s", name, command)
		}
		args = append(args, "--"+name+"="+flags[name])
	}
	return printed(func(to Streams) *cobra.Command { return known.make(to, &understood{s, r}) }, args)
}

// Sequence answers as the sequence command does.
func (c pageCore) Sequence(file string) ([]byte, error) {
	return printed(func(to Streams) *cobra.Command { return NewCmdSequence(to, nil) }, []string{file, "--json"})
}

// printed is what a command prints. An answer that says that nothing would do
// is an answer.
func printed(command func(Streams) *cobra.Command, args []string) ([]byte, error) {
	var out bytes.Buffer
	c := command(Streams{In: &bytes.Buffer{}, Out: &out, Err: io.Discard})
	c.SilenceErrors, c.SilenceUsage = true, true
	c.SetArgs(args)
	c.SetOut(io.Discard)
	err := c.Execute()
	if Code(err) == ExitLimits && out.Len() > 0 {
		err = nil
	}
	return out.Bytes(), err
}

// pageJob is a job as the page sees it. Its flags name the shot, for the log of
// its takes.
type pageJob struct {
	job
	flags *ShotFlags
}

func (j pageJob) Shot() shot.Shot                    { return j.shot }
func (j pageJob) Rig() rig.Rig                       { return j.rig }
func (j pageJob) Trajectory() *trajectory.Trajectory { return j.trajectory }
func (j pageJob) Verdict() verify.Verdict            { return j.verdict }
func (j pageJob) Picture() *picture.Report           { return j.picture }
func (j pageJob) Unable() error                      { return j.unable() }
func (j pageJob) Others() []picture.Verdict          { return j.others() }
func (j pageJob) Expected() *ontime.Prediction       { return j.expected() }

// Headline is the headline, where glanced without the controller.
func (j pageJob) Headline(glanced bool) judge.Headline {
	if glanced {
		return j.glancedHeadline()
	}
	return j.headline()
}

func (j pageJob) StandFits() []string { return j.standFits() }

// Finder draws what the lens sees.
func (j pageJob) Finder(width int) (*preview.Finder, []string, error) { return j.finder(width, false) }

// exportEndings are the names of exports that are no table.
var exportEndings = map[string]string{
	"gcode": "loop.ngc", "json": "plan.json", otioExport: "selects.otio", gltfExport: "motion.glb", motionExport: "motion.json",
}

// Export returns the name and the writer of a form: one that the export command
// knows, or the name of a file that make writes.
func (j pageJob) Export(form string) (string, func(io.Writer) error, error) {
	takes, err := j.flags.kept(j.job)
	if err != nil {
		return "", nil, err
	}
	if !slices.Contains(exports, form) {
		return j.partOf(form, takes)
	}
	if err := j.exportable(form); err != nil {
		return "", nil, err
	}
	trouble := j.trouble
	if form == "gcode" {
		trouble = j.unable
	}
	set := exportSettings{tick: exact.New(1, 1000), handles: true, takes: takes, countIn: countIn}
	return cmp.Or(exportEndings[form], form+".csv"), j.exporter(form, set), refuse(trouble(), false)
}

// partOf is a file of those that make writes.
func (j pageJob) partOf(name string, takes kept.Takes) (string, func(io.Writer) error, error) {
	all := j.contents(takes, false)
	for _, p := range all.parts {
		if p.name == name {
			return name, p.fill, refuse(j.unable(), false)
		}
	}
	for _, l := range all.left {
		if slices.Contains(l.names, name) {
			return "", nil, fmt.Errorf("%s is left out: %s", name, l.why)
		}
	}
	return "", nil, fmt.Errorf("there is nothing to export that is called %q; there are %s, and the files that make writes", name, strings.Join(exports, ", "))
}

// Make writes everything into a folder, as the make command does.
func (j pageJob) Make(dir string) (string, error) {
	if err := refuse(j.unable(), false); err != nil {
		return "", err
	}
	takes, err := j.flags.kept(j.job)
	if err != nil {
		return "", err
	}
	all := j.contents(takes, false)
	if err := whole.Folder(dir, j.folder(all), nil); err != nil {
		return "", err
	}
	var said bytes.Buffer
	err = errors.Join(all.list(&said), all.stale(&said, dir))
	return said.String(), err
}
