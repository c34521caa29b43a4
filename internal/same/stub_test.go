package main

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"
)

// stubs are programs that differ from "plain" in one thing each. The test binary is them
// when it is called by a stub's name.
var stubs = map[string]stub{
	"plain":            {number: 1234.5678901},
	"ninth digit":      {number: 1234.5678902},
	"eighth digit":     {number: 1234.5679901},
	"status":           {number: 1234.5678901, status: 2},
	"standard error":   {number: 1234.5678901, told: "entry 2"},
	"standard output":  {number: 1234.5678901, more: "and more"},
	"file out.csv":     {number: 1234.5678901, cell: "changed"},
	"row of yesterday": {number: 1234.5678901, age: 24 * time.Hour},
	"file more.csv":    {number: 1234.5678901, extra: "more.csv"},
}

// stub is a program that says and writes a little, whatever it is asked.
type stub struct {
	number                  float64
	told, more, cell, extra string
	status                  int
	age                     time.Duration // of the row that it writes
}

func TestMain(m *testing.M) {
	if s, ok := stubs[filepath.Base(os.Args[0])]; ok {
		os.Exit(s.run(os.Args[1:]))
	}
	os.Exit(m.Run())
}

// run answers in JSON if it is asked for, and writes a row with the time of now and a
// check that hangs on it.
func (s stub) run(args []string) int {
	switch {
	case len(args) > 0 && args[len(args)-1] == "json":
		fmt.Printf("{\n  \"figures\": {\"volume\": {\"value\": %.7f, \"unit\": \"gal\"}}\n}\n", s.number)
	default:
		fmt.Println("Pump it.")
	}
	if s.more != "" {
		fmt.Println(s.more)
	}
	fmt.Fprintln(os.Stderr, "told "+s.told)
	at := time.Now()
	check := []byte("aaaaaaaa")
	for i := range check {
		check[i] += byte(at.Nanosecond()>>(4*i)) & 0xf
	}
	row := fmt.Sprintf("1,%s,count,%s,%s\n", at.Add(-s.age).Format(time.RFC3339), s.cell, check)
	for _, name := range []string{"out.csv", s.extra} {
		if name != "" && os.WriteFile(name, []byte(row), 0o644) != nil {
			return 1
		}
	}
	return s.status
}
