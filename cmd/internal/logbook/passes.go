package logbook

import (
	"fmt"
	"slices"
	"strings"

	"seamrail/cmd/internal/job"
	"seamrail/export/report/groupreport"
	"seamrail/motion/edit/passes"
)

// Passes tells how well the takes of a group match: those on a rig of metal or, where there
// are none, the virtual ones. What they are in the picture is known while load gives the
// shot that they were filmed by.
func Passes(shotFile, group string, load func() (*job.Job, error)) (groupreport.Data, error) {
	d := groupreport.Data{Name: group}
	takes, err := Group(shotFile, group, false)
	if err == nil && len(takes) == 0 {
		d.Virtual = true
		takes, err = Group(shotFile, group, true)
	}
	if err != nil {
		return d, err
	}
	if len(takes) == 0 {
		return d, noGroup(shotFile, group)
	}
	var scale passes.Scale
	j, why := sameShot(takes, load)
	if d.NoScale = why; j != nil {
		zeros(takes, j)
		scale, d.NoScale = scaleOf(j)
	}
	d.Group = passes.Of(takes, scale)
	return d, nil
}

// sameShot is the shot as it is now, while any of the takes was filmed by it; else why not.
func sameShot(takes []passes.Filmed, load func() (*job.Job, error)) (*job.Job, string) {
	j, err := load()
	if err != nil {
		return nil, "the shot cannot be planned any more"
	}
	if !slices.ContainsFunc(takes, func(f passes.Filmed) bool { return f.Plan == j.Plan.Hash() }) {
		return nil, "the shot has changed since"
	}
	return j, ""
}

// zeros finds frame 0 of each take by its sync mark.
func zeros(takes []passes.Filmed, j *job.Job) {
	for i := range takes {
		f := &takes[i]
		if j.Mark == nil || f.Marks == nil || f.Plan != j.Plan.Hash() {
			continue
		}
		found := j.Mark.In(*f.Marks, max(f.Rounds, 1))
		f.Zero = &passes.Zero{Seen: f.Marks.Saw, Mark: f.Marks.Frame, From: found.Frame - float64(f.Marks.Frame), Out: found.Out}
	}
}

// scaleOf is what motion is in the picture of a shot, or why that is not known.
func scaleOf(j *job.Job) (passes.Scale, string) {
	s, err := j.Scale()
	if err != nil || !s.Known() {
		return passes.Scale{}, "the shot says too little of camera and scene"
	}
	return s, ""
}

func noGroup(shotFile, group string) error {
	all, err := Groups(shotFile)
	switch {
	case err != nil:
		return err
	case len(all) == 0:
		return fmt.Errorf("no take in %s is of a group; \"seamrail drive --group %s --pass NAME\" films one, and \"seamrail takes --log\" with the same logs one that was filmed by hand", NameOf(shotFile), group)
	}
	return fmt.Errorf("there is no group %q in %s; its groups are %s", group, NameOf(shotFile), strings.Join(all, ", "))
}
