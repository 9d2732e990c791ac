/**
 * Signatures: a person proves again who they are, and puts their name under a statement and the
 * content they were shown. The row keeps the hash of both; nothing takes a signature away.
 */
package trestle.signing;
