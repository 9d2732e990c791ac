/**
 * The page frame, forms and their errors, problem responses, security headers; who is asking
 * ({@link trestle.web.Viewer}), and the walls every transaction opens with.
 */
package trestle.web;
