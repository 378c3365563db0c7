/**
 * Many studies in one run: each stands alone, a failing one stops no other, and what is held in
 * memory is bounded by the number of workers. Start at {@link splitledger.fleet.Fleet}.
 */
package splitledger.fleet;
