/**
 * An installation, or one operator of it, in one file: written from a single snapshot while the
 * program runs, checked whole before anything is taken back. Knows tables and ledgers, and nothing
 * of what they mean. docs/decisions/0012-backup.md says why it is as it is.
 */
package trestle.server.backup;
