package logbook

import (
	"errors"
	"fmt"
	"time"

	"seamrail/export/drive/takelog"
	"seamrail/motion/plain"
)

// Mark adds marks of a take, 0 for the last, to the log of a shot.
func Mark(shotFile string, take int, marks []takelog.Record, now time.Time) error {
	name := NameOf(shotFile)
	log, _, err := Read(name)
	if err != nil {
		return err
	}
	switch {
	case log.Count == 0:
		return fmt.Errorf("there is no take to mark: %s has none", name)
	case log.Real() == 0:
		return fmt.Errorf("there is no take to mark: %s has %s alone, of which there is no film", name, plain.Counted(log.Virtual, "virtual take"))
	}
	if take == 0 {
		take = log.Last()
	}
	if !log.Has(take) {
		return fmt.Errorf("there is no take %d in %s; its takes are %d to %d", take, name, log.First(), log.Next()-1)
	}
	f, w, err := appendTo(name)
	if err != nil {
		return err
	}
	for _, r := range marks {
		r.Take, r.Time = take, now
		if err := w.Add(r); err != nil {
			return errors.Join(err, f.Close())
		}
	}
	if err := f.Close(); err != nil {
		return cannotWrite(name, err)
	}
	return nil
}
