/**
 * The demo operator: reads {@code demo-seed/}, plans two years of flights and work that end today,
 * and loads them through the ordinary use cases, each at the time it tells.
 */
package trestle.demo;
