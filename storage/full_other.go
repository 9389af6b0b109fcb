//go:build !windows

package storage

func isDiskFull(error) bool { return false }
