package host

import (
	"os"
	"strconv"

	"golang.org/x/sys/unix"
)

// How each urgency is asked for. One that is brief asks for slices of the least length
// there is, in ns (sched_setattr(2), since Linux 6.12). A program that is first is so at the lowest of the
// levels that there are: nothing of the system's own has to wait for it. One that is
// ahead is half way to what a system keeps to itself.
var urgencies = [...]unix.SchedAttr{
	Ordinary: {Policy: unix.SCHED_NORMAL},
	brief:    {Policy: unix.SCHED_NORMAL, Runtime: 100_000},
	Ahead:    {Policy: unix.SCHED_NORMAL, Nice: -10},
	First:    {Policy: unix.SCHED_FIFO, Priority: 1},
}

// become sets the urgency of every thread, and with it of those that they begin: on
// its way from a signal to the wire a stop passes through several.
func (u Urgency) become() error {
	tasks, err := os.ReadDir("/proc/self/task")
	if err != nil {
		return err
	}
	how := urgencies[u]
	how.Size = unix.SizeofSchedAttr
	for _, task := range tasks {
		id, err := strconv.Atoi(task.Name())
		if err == nil {
			err = unix.SchedSetAttr(id, &how, 0)
		}
		if err != nil && err != unix.ESRCH { // one that has ended meanwhile
			return err
		}
	}
	return nil
}
