// The key to the underlines.
const kinds = ['given', 'measured', 'catalogue', 'assumed', 'planned', 'derived'] as const;

export const Origins = () => (
  <p className="origins">
    <span>Underlines tell where a number comes from</span>
    {kinds.map((kind) => (
      <span key={kind} className={`o ${kind}`}>
        {kind}
      </span>
    ))}
  </p>
);
