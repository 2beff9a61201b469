package cli

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"text/tabwriter"
	"time"

	"seamrail/export/drive/takelog"
	"seamrail/export/header"
	"seamrail/motion/plain"
	"seamrail/motion/unit"
)

// planDigits is how many digits of a plan's hash tell the plans of one shot
// apart at a glance.
const planDigits = 6

// rowsAligned is how many takes are lined up with each other. A log of more is
// listed in parts, so that none of it is held.
const rowsAligned = 1000

// printTakes lists a log, with what to know of its end.
func printTakes(out io.Writer, name string) error {
	w := bufio.NewWriter(out) // a table is written cell by cell
	if err := tabulate(w, name); err != nil {
		return errors.Join(err, w.Flush())
	}
	return w.Flush()
}

func tabulate(w io.Writer, name string) error {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	rows := 0
	var details strings.Builder
	log, there, err := walkLog(name, func(k takelog.Take) error {
		if rows == 0 {
			fmt.Fprintln(t, "TAKE\tKEEP\tBEGAN\tPLAN\tROUNDS\tPLANNED\tTOOK\tWORST\tENDED\tNOTES")
		}
		if k.End.Detail != "" {
			fmt.Fprintf(&details, "\nTake %d: %s.", k.Number, header.Clean(k.End.Detail))
		}
		fmt.Fprintln(t, strings.Join(takeRow(k), "\t"))
		if rows++; rows%rowsAligned == 0 {
			return t.Flush()
		}
		return nil
	})
	if err != nil {
		return err
	}
	if err := t.Flush(); err != nil {
		return err
	}
	if log.Count == 0 {
		why := "has none"
		if !there {
			why = "is not there yet"
		}
		if _, err := fmt.Fprintf(w, "No takes: %s %s.\n", plain.Text(name), why); err != nil {
			return err
		}
	}
	return logEnd(w, log, details.String())
}

func takeRow(k takelog.Take) []string {
	keep := ""
	if k.Keep {
		keep = "yes"
	}
	plan := k.Begin.Plan
	if len(plan) > planDigits {
		plan = plan[:planDigits]
	}
	ended := k.End.Outcome
	if k.End.Held {
		ended += ", held on the way"
	}
	notes := append(lateTexts(k.Late), k.Notes...)
	return []string{
		strconv.Itoa(k.Number), keep, k.Begin.Time.Local().Format(time.DateTime), known(plan),
		roundsText(k), secondsText(plannedOf(k)), secondsText(k.End.Executed),
		worstText(k.End.Worst), header.Clean(ended), header.Clean(strings.Join(notes, "; ")),
	}
}

// roundsText is the rounds run of those asked for.
func roundsText(k takelog.Take) string {
	asked := strconv.FormatInt(k.Begin.Rounds, 10)
	switch {
	case k.Begin.Rounds == 0 && k.Cut:
		return "until stopped"
	case k.Begin.Rounds == 0:
		return fmt.Sprintf("%d, until stopped", k.End.Rounds)
	case k.Cut:
		return "? of " + asked
	case k.End.Rounds == k.Begin.Rounds:
		return asked
	}
	return fmt.Sprintf("%d of %s", k.End.Rounds, asked)
}

// plannedOf is the planned motion in s: that of the rounds that were run, where
// that is known.
func plannedOf(k takelog.Take) float64 {
	if k.End.Planned > 0 {
		return k.End.Planned
	}
	return k.Begin.Planned
}

func secondsText(s float64) string {
	if s == 0 {
		return "-"
	}
	return strconv.FormatFloat(s, 'f', 3, 64) + " s"
}

// deviationGrain is what a deviation is printed to: finer than any report.
const deviationGrain = 0.001

// worstText is the worst deviation of each axis, "rail 0.01 mm".
func worstText(worst []takelog.Worst) string {
	var out []string
	for _, w := range worst {
		dim := unit.Length
		if w.Unit == "deg" {
			dim = unit.Angle
		}
		out = append(out, w.Axis+" "+unit.Format(math.Round(w.Value/deviationGrain)*deviationGrain, dim))
	}
	return known(strings.Join(out, ", "))
}

// logEnd says what went wrong, and what the last record means for the next take.
func logEnd(w io.Writer, log takelog.Log, details string) error {
	var b strings.Builder
	b.WriteString(details)
	if k, cut := log.LastCut(); cut {
		fmt.Fprintf(&b, "\nTake %d was cut short: the log breaks off in it.", k.Number)
	}
	if log.Torn > 0 {
		fmt.Fprintf(&b, "\n%s of the log cannot be read: passed over.", counted(log.Torn, "line"))
	}
	if log.Count > 0 && !log.Known {
		b.WriteString("\nWhere the rig stands is not known: home it, or place it by hand, before the next take.")
	}
	if b.Len() == 0 {
		return nil
	}
	_, err := fmt.Fprintln(w, b.String())
	return err
}
