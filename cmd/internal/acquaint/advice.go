package acquaint

import (
	"errors"
	"fmt"
	"os/user"
	"runtime"
	"strings"

	"seamrail/cmd/internal/host"
	"seamrail/export/drive"
	"seamrail/motion/base/list"
)

// advice is what to do about an error, by what was seen.
func (o Options) advice(err error) []string {
	var port *host.OpenError
	var failure *drive.Failure
	switch {
	case errors.As(err, &port):
		return o.toOpen(port.Trouble)
	case errors.As(err, &failure):
		return append(o.shared(), toHear[failure.End]...)
	}
	return nil
}

// toOpen is what to do about a port that does not open.
func (o Options) toOpen(t host.Trouble) []string {
	switch t {
	case host.NotThere, host.NoPort:
		return o.thereIs()
	case host.Busy:
		if by := host.Holders(o.Port); len(by) > 0 {
			return []string{"it is open in " + strings.Join(by, ", ") + ": close that, and try again"}
		}
		return []string{"close whatever talks to the board: another terminal, a monitor of a port, a page that drives it"}
	case host.Denied:
		return permission(runtime.GOOS, host.GroupOf(o.Port), userName())
	case host.BadSpeed:
		return []string{"--baud names the one speed to try, such as --baud 115200"}
	}
	return nil
}

// permission is how one is let in to a port, system by system.
func permission(system, group, name string) []string {
	switch {
	case system == "linux" && group == "root":
		return []string{"the port belongs to root alone: see that the system gives serial ports to a group (a rule of udev), and join that"}
	case system == "linux" && group != "":
		return []string{fmt.Sprintf("it belongs to the group %s: join it with \"sudo usermod -a -G %s %s\", log out and in again, and try again", group, group, name)}
	case system == "linux":
		return []string{"see with \"ls -l\" which group the port belongs to, and join it: often dialout, on some systems uucp"}
	case system == "darwin":
		return []string{"use the port whose name begins with /dev/cu., and see under Privacy & Security whether the terminal may use accessories"}
	}
	return []string{"another program may have it, or a driver is missing: unplug the board, plug it in again, and see what the system lists"}
}

func userName() string {
	if u, err := user.Current(); err == nil {
		return u.Username
	}
	return "NAME"
}

// thereIs lists the ports that are there.
func (o Options) thereIs() []string {
	ports := o.Ports
	if ports == nil {
		ports = host.Ports
	}
	all, err := ports()
	switch {
	case err != nil:
		return nil
	case len(all) == 0:
		return []string{"there is no serial port here at all: is the board plugged in and powered? Some cables only charge, and some boards need a driver"}
	}
	return []string{"there is " + strings.Join(list.Map(all, func(p host.PortFacts) string { return p.Name }), ", ")}
}

// shared names who else has the port open: what they read, we do not hear.
func (o Options) shared() []string {
	if o.Virtual {
		return nil
	}
	if by := host.Holders(o.Port); len(by) > 0 {
		return []string{"it is open in " + strings.Join(by, ", ") + " as well, which may take the answers away: close that first"}
	}
	return nil
}

// toHear is what to do about what came, or did not.
var toHear = map[drive.End][]string{
	drive.Silent: {
		"is the board powered? Many take no power for themselves from USB",
		"is the cable one that carries data? Some only charge",
		"is its reset held, or a jumper set that keeps it in its boot loader? Take it off, press reset once, and try again",
		"is this its port? \"seamrail ports\" lists them: unplug the board, and see which goes",
		"on wires of your own: are receive and transmit crossed, and is there a common ground?",
	},
	drive.Garbled: {
		"its speed is another: --baud N tries one that its makers state",
		"on wires of your own: is there a common ground, and do both ends talk at the same voltage?",
	},
	drive.Foreign: {
		"it is another kind of machine, or has other firmware: \"seamrail ports\" lists what is there",
		"boards that are driven read RS-274/NGC words line by line, or play steps by PROTOCOL.md of the sources",
	},
	drive.PortLost: {"it was unplugged, or went away as it started anew: wait until \"seamrail ports\" lists it, and try again"},
	drive.Refused:  {"see that nothing moves, or press the board's reset with the motors' power off, and try again"},
}
