// Package format is what can be written of a job. A format is a file of this package
// and a line of its table: from that the export command, its help, the make command,
// the index of a folder and the page have all that they know of it.
package format

import (
	"io"
	"sync"

	"seamrail/cmd/internal/job"
	"seamrail/export/header"
	"seamrail/export/table/steps"
	"seamrail/motion/base/exact"
	"seamrail/motion/edit/selects"
	"seamrail/plot/sheet"
	"seamrail/plot/topview"
)

// Format is one thing that can be written.
type Format struct {
	Export  Export // what the export command calls it, none where it does not write it
	File    string // its name in the folder that the make command writes
	Purpose string // what it is for, in the index of that folder
	For     Whom
	// Needs is an error that says what of a job is missing for it; nil where it needs
	// no more than a plan.
	Needs func(*Of) error
	// Driven says that it is for a controller: it is refused where that cannot follow
	// or a motor has not the torque, and not only where the plan breaks a limit.
	Driven bool
	Takes  bool // it hands on the takes to keep
	Quiet  bool // where it is left out of the folder, nothing is said of it: few shots have it
	Write  func(*Of, io.Writer) error
}

// Whom is who needs a format.
type Whom int

// For whom formats are: who builds, lights and films; the rig's controller; who cuts,
// and adds to the picture.
const (
	Set Whom = iota
	Rig
	Edit
)

// String is "the set", "the rig" or "the edit".
func (w Whom) String() string { return [...]string{"the set", "the rig", "the edit"}[w] }

// Export is a format on the command line.
type Export struct {
	Place int    // among the formats of the export command, from 1
	Name  string // "" for none
	Help  string
	Flags []string // of the command that are of this format
}

// Options is what formats may be asked.
type Options struct {
	Unit    steps.Unit    // of step times
	Tick    exact.Rat     // s, of step counts
	Handles bool          // frames before and after the loop as well
	CountIn int           // s from cycle start to the motion, at least
	NoStop  bool          // do not wait before the take
	Takes   selects.Takes // to hand on; the zero value is the take that the plan foresees
}

// Usual are the options of the folder, and of whatever does not say otherwise.
func Usual() Options {
	return Options{Tick: exact.New(1, 1000), Handles: true, CountIn: job.CountIn}
}

// Of is a job that is written, with what several formats show of it, made once.
type Of struct {
	*job.Job
	Options

	head  func() header.Head
	sheet func() sheet.Page
	above func() (topview.Data, error)
}

// New is a job to be written with options.
func New(j *job.Job, o Options) *Of {
	return &Of{
		Job: j, Options: o,
		head:  sync.OnceValue(func() header.Head { return header.Of(j.Plan, j.Verdict) }),
		sheet: sync.OnceValue(func() sheet.Page { return Sheet(j) }),
		above: sync.OnceValues(func() (topview.Data, error) { return TopView(j) }),
	}
}

// Missing is an error that says what of a job is missing for a format.
func (f Format) Missing(of *Of) error {
	if f.For == Rig {
		if err := job.Driven(of.Rig); err != nil {
			return err
		}
	}
	if f.Needs == nil {
		return nil
	}
	return f.Needs(of)
}

// Refused is an error of limits where a format of a job must not be written, unless forced.
func (f Format) Refused(j *job.Job, force bool) error {
	if f.Driven {
		return job.Refuse(j.Unable(), force)
	}
	return job.Refuse(j.Trouble(), force)
}
