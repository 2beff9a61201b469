package logbook

import (
	"seamrail/export/drive"
	"seamrail/export/drive/takelog"
	"seamrail/motion/edit/selects"
	"seamrail/motion/plan"
)

// Kept reads the takes of a plan to keep from the log of its shot; "" for the one that
// is not named.
func Kept(shotFile string, p *plan.Plan) (selects.Takes, error) {
	log, err := pick(NameOf(shotFile), isKept)
	if err != nil {
		return selects.Takes{}, err
	}
	takes := selects.Of(p, filmed(log, shotFile != "", p.Hash()))
	takes.Unread = log.Torn
	return takes, nil
}

// filmed are the takes of a log that are to be kept. Where no shot file is named
// one log is that of many shots, and only this plan's takes are its own.
func filmed(log takelog.Log, named bool, hash string) []selects.Filmed {
	var out []selects.Filmed
	for _, t := range log.Takes {
		if isKept(t) && (named || t.Begin.Plan == hash) {
			out = append(out, filmedOf(t))
		}
	}
	return out
}

func filmedOf(t takelog.Take) selects.Filmed {
	f := selects.Filmed{
		Number: t.Number, Plan: t.Begin.Plan, Rounds: t.End.Rounds, Held: t.End.Held, Cut: t.Cut, Notes: t.Notes,
	}
	if !t.Cut && t.End.Outcome != drive.Finished.String() {
		f.Ended = t.End.Outcome
	}
	return f
}
