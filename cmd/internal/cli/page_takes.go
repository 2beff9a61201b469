package cli

import (
	"fmt"
	"strconv"
	"time"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/page"
	"seamrail/export/drive/takelog"
)

// Takes lists what was filmed of the shot, after marking one as the takes
// command does.
func (c pageCore) Takes(mark *page.TakeMark) ([]page.Take, error) {
	if mark != nil {
		args := []string{"--note=" + mark.Note}
		if mark.Take != 0 {
			args = append(args, "--take="+strconv.Itoa(mark.Take))
		}
		if mark.Keep != nil && *mark.Keep {
			args = append(args, "--keep")
		} else if mark.Keep != nil {
			args = append(args, "--drop")
		}
		if c.o.Shot != "" {
			args = append(args, c.o.Shot)
		}
		if _, err := printed(func(s Streams) *cobra.Command { return NewCmdTakes(s, nil) }, args); err != nil {
			return nil, err
		}
	}
	out := []page.Take{}
	_, _, err := walkLog(logName(c.o.Shot), func(t takelog.Take) error {
		out = append(out, page.Take{
			Number: t.Number, Virtual: t.Virtual(), Began: t.Begin.Time.Format(time.RFC3339), Rounds: t.End.Rounds, End: string(t.End.Outcome),
			Keep: t.Keep, Notes: append([]string{}, t.Notes...), Plan: t.Begin.Plan,
		})
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("the log of takes: %w", err)
	}
	return out, nil
}
