/** The reference engine, a face of its own: it loads hyperformula, which most commands do not need. */
export { checkedByReference } from './calc/agreement.ts';
