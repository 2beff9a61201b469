package takes

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/logbook"
	"seamrail/export/drive/takelog"
	"seamrail/export/report"
)

// maxFrame is more than a recording of a day has.
const maxFrame = 100_000_000

// seen is the record of sync marks that were seen, if any were.
func (o *Options) seen() ([]takelog.Record, error) {
	if o.Seen == "" {
		return nil, nil
	}
	r := takelog.Record{Kind: takelog.Sighted}
	first, last, two := strings.Cut(o.Seen, ",")
	for text, to := range map[string]*int64{first: &r.SawFirst, last: &r.SawLast} {
		if text == "" && !two {
			continue
		}
		n, err := strconv.ParseInt(strings.TrimSpace(text), 10, 64)
		if err != nil || n < 0 || n > maxFrame {
			return nil, exit.Misused("--mark-seen %q must be one or two whole frames of the recording, such as \"121\" or \"121,2561\"", o.Seen)
		}
		*to = n
	}
	if two && r.SawLast <= r.SawFirst {
		return nil, exit.Misused("--mark-seen %q must have the mark after the take after the one before it", o.Seen)
	}
	if _, _, err := o.marked(); err != nil {
		return nil, err
	}
	return []takelog.Record{r}, nil
}

// marked plans the shot, which must have a sync mark, and finds the take that is marked,
// which must have been driven with one, by that plan.
func (o *Options) marked() (*job.Job, takelog.Take, error) {
	var none takelog.Take
	j, err := job.Source{Shot: o.Shot}.Job(nil)
	switch {
	case o.Shot == "-":
		return nil, none, exit.Misused("the sync mark of a shot from standard input is not known here")
	case err != nil:
		return nil, none, fmt.Errorf("where frame 0 is follows from the shot: %w", err)
	case j.Mark == nil:
		return nil, none, fmt.Errorf("%s has no sync mark; [sync-mark] in it would be one", o.Shot)
	}
	if err := logbook.Markable(o.Shot); err != nil {
		return nil, none, err
	}
	log, err := logbook.Synced(logbook.NameOf(o.Shot))
	if err != nil {
		return nil, none, err
	}
	number := o.Take
	if number == 0 {
		number = log.Last()
	}
	for _, t := range log.Takes {
		switch {
		case t.Number != number || t.Virtual():
		case t.Begin.Plan != j.Plan.Hash():
			return nil, none, fmt.Errorf("take %d was filmed by another plan, %s: where its frame 0 is does not follow from this one", number, t.Begin.Plan)
		default:
			return j, t, nil
		}
	}
	return nil, none, fmt.Errorf("the log says nothing of a sync mark in take %d: it was driven without, or is not there", number)
}

// whereFrame0 says where frame 0 is of the take whose marks have been seen.
func (o *Options) whereFrame0(told bool) error {
	if !told || o.Told.JSON {
		return nil
	}
	j, t, err := o.marked()
	if err != nil {
		return err
	}
	found := j.Mark.In(*logbook.MarksOf(t), max(t.End.Rounds, 1))
	words := fmt.Sprintf("Take %d: %s.", t.Number, strings.Join(found.Words(j.Mark), "; "))
	wide := min(max(o.Streams.Columns(report.Width), report.Narrowest), report.Broadest)
	return command.Deliver(o.Streams, command.Stdout, func(w io.Writer) error {
		_, err := io.WriteString(w, strings.Join(folded(words, wide), "\n")+"\n\n")
		return err
	})
}
