package session

import (
	"fmt"

	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/logbook"
)

// grouped makes the names of a group and of its pass such as the log has them, and is an
// error where a take of a job would not match the passes that the group has.
func (o *Options) grouped(j *job.Job) (err error) {
	o.Group, o.Pass, _, err = logbook.Grouped(o.Source.Shot, o.Group, o.Pass, o.Virtual, j)
	return err
}

// drivenBy says once whom the log names.
func (s *session) drivenBy() string {
	if s.driven == "" {
		return ""
	}
	how := "--operator says another name, or " + logbook.Nobody
	if s.o.Operator != "" {
		how = "as --operator says"
	}
	return fmt.Sprintf("The log says that %s drives (%s). It stays in the file beside the shot.\n", s.driven, how)
}
