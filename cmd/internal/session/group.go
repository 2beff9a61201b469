package session

import (
	"errors"

	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/logbook"
	"seamrail/export/drive"
	"seamrail/export/drive/takelog"
)

// grouped makes the names of a group and of its pass such as the log has them, and is an
// error where a take of a job would not match the passes that the group has.
func (o *Options) grouped(j *job.Job) (err error) {
	switch {
	case o.Group == "" && o.Pass == "":
		return nil
	case o.Group == "":
		return errors.New("a pass is one of a group: name the group too")
	case o.Pass == "":
		return errors.New("a group has several passes: say which this is, such as light, product or clean plate")
	}
	if o.Group, err = takelog.Name("the group", o.Group); err != nil {
		return err
	}
	if o.Pass, err = takelog.Name("the pass", o.Pass); err != nil {
		return err
	}
	start := drive.StartOf(j.Trajectory)
	return logbook.Joins(o.Source.Shot, o.Group, o.Virtual, logbook.PassOf(takelog.Take{Begin: takelog.Record{Plan: j.Plan.Hash(), Start: &start}}))
}
