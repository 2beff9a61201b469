package takes

import (
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/logbook"
)

// group tells how well the passes of a group match.
func (o *Options) group() error {
	d, err := logbook.Passes(o.Shot, o.Group, func() (*job.Job, error) { return job.Source{Shot: o.Shot}.Job(nil) })
	if err != nil {
		return err
	}
	return o.Told.Tell(o.Streams, d)
}
