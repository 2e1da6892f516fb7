/**
 * Inside a store transaction nothing may be awaited but its own requests: the browser ends the transaction while one
 * waits for anything else (hazard 16). Inside a function that is given `tx`, each `await` must wait for a call of
 * `tx` itself, for a call that is handed `tx`, or for one of what such a call returned (`numbers`, by its name).
 */
export const no_foreign_await = {
  meta: {
    type: 'problem',
    schema: [],
    messages: {
      foreign:
        'A transaction ends while it waits for anything but its own requests: await this before or after it.',
    },
  },
  create(context) {
    /** Functions with a parameter `tx`, innermost last, each with the names that stand for its transaction. */
    const open = [];
    const enter = (node) => open.push(takes_tx(node) ? new Set(OWN) : inherited(open.at(-1)));
    const leave = () => open.pop();
    return {
      FunctionDeclaration: enter,
      FunctionExpression: enter,
      ArrowFunctionExpression: enter,
      'FunctionDeclaration:exit': leave,
      'FunctionExpression:exit': leave,
      'ArrowFunctionExpression:exit': leave,
      VariableDeclarator(node) {
        const names = open.at(-1);
        if (names && node.id.type === 'Identifier' && node.init && mentions(node.init, names))
          names.add(node.id.name);
      },
      AwaitExpression(node) {
        const names = open.at(-1);
        if (names && !mentions(node.argument, names)) context.report({ node, messageId: 'foreign' });
      },
      ForOfStatement(node) {
        if (node.await && open.at(-1)) context.report({ node, messageId: 'foreign' });
      },
    };
  },
};

const OWN = ['tx', 'numbers'];

const takes_tx = (node) => node.params.some((param) => param.type === 'Identifier' && param.name === 'tx');

/** A function written inside another sees its transaction. */
const inherited = (names) => names && new Set(names);

/** Is the transaction, or what came of it, called or handed on anywhere in the expression? */
function mentions(node, names) {
  if (!node || typeof node.type !== 'string') return false;
  if (node.type === 'Identifier') return names.has(node.name);
  if (node.type === 'MemberExpression') return mentions(node.object, names);
  return Object.entries(node).some(([key, value]) => {
    if (key === 'parent') return false;
    return Array.isArray(value) ? value.some((one) => mentions(one, names)) : mentions(value, names);
  });
}
