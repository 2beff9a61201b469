//go:build linux

package cli_test

import (
	"io"
	"os"
	"runtime/debug"
	"sync"

	"golang.org/x/sys/unix"

	"seamrail/cmd/internal/cli"
	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/host"
)

// What is planted in a program of the tests, to befall it in mid-motion.
const (
	inReader  = "panic in reader"
	inEngine  = "panic in engine"
	inConsole = "panic in console"
	fullDisk  = "output on a disk that is full"
	noMemory  = "memory refused"
	sharedMap = "concurrent map writes"
	noStack   = "stack used up"
	hanging   = "engine hangs"
)

// plantEnv names the plant, in a program of the tests alone.
const plantEnv = "SEAMRAIL_TEST_PLANT"

// ripeEnv names the file that makes it happen once it is there.
const ripeEnv = "SEAMRAIL_TEST_RIPE"

func init() { programs["planted"] = planted }

// planted is the program with something planted in it.
func planted() {
	what := os.Getenv(plantEnv)
	s := command.System()
	s.OpenPort = func(name string, baud int) (host.Port, error) {
		p, err := host.Open(name, baud)
		if err != nil {
			return nil, err
		}
		return &plant{realPort: p.(realPort), what: what}, nil
	}
	if what == inConsole || what == fullDisk {
		s.Out = &rotten{s.Out, what}
	}
	os.Exit(cli.Run(s, os.Args[1:]))
}

// realPort is all that a port of the system can do.
type realPort interface {
	host.Port
	Put([]byte) (int, error)
	Unsent() int
	Line() *os.File
	ResetOutputBuffer() error
}

// plant is a port on which something happens once the test says so, by a file.
type plant struct {
	realPort
	what string
	once sync.Once
}

// ripe tells whether it is time.
func ripe() bool {
	_, err := os.Stat(os.Getenv(ripeEnv))
	return err == nil
}

func (p *plant) Read(b []byte) (int, error) {
	n, err := p.realPort.Read(b)
	if ripe() {
		p.once.Do(func() { befall(p.what) })
	}
	return n, err
}

func (p *plant) Put(b []byte) (int, error) {
	switch {
	case p.what == inEngine && ripe():
		panic("planted")
	case p.what == hanging && ripe():
		select {}
	}
	return p.realPort.Put(b)
}

// befall is what happens on the goroutine that reads.
func befall(what string) {
	switch what {
	case inReader:
		panic("planted")
	case noMemory:
		_ = unix.Setrlimit(unix.RLIMIT_AS, &unix.Rlimit{Cur: 1, Max: 1})
		var all [][]byte
		for len(all) >= 0 {
			all = append(all, make([]byte, 1<<20))
		}
	case sharedMap:
		m := map[int]int{}
		for range 4 {
			go func() {
				for i := 0; ; i++ {
					m[i&7] = i
				}
			}()
		}
	case noStack:
		debug.SetMaxStack(1 << 20)
		deeper(0)
	}
}

func deeper(n int) int {
	var room [1024]byte
	if n < 0 {
		return 0
	}
	room[n%len(room)] = 1
	return deeper(n+1) + int(room[0])
}

// rotten is output that panics, or finds no room.
type rotten struct {
	io.Writer
	what string
}

func (r *rotten) Write(p []byte) (int, error) {
	switch {
	case ripe() && r.what == inConsole:
		panic("planted")
	case ripe():
		return 0, unix.ENOSPC
	}
	return r.Writer.Write(p)
}
