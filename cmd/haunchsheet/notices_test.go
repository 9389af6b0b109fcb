package main

import (
	"strings"
	"testing"
)

func TestNoticesArePrinted(t *testing.T) {
	if out, _ := ran(t, 0, "", "-notices"); !strings.Contains(out, "go.etcd.io/bbolt") || !strings.Contains(out, "Permission is hereby granted") {
		t.Errorf("it prints %d letters, without the modules or their terms", len(out))
	}
}
